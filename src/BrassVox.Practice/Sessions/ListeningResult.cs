namespace BrassVox.Practice.Sessions;

/// <summary>What a listener can tell, with confidence; never points.</summary>
/// <param name="ExerciseId">The exercise.</param>
/// <param name="Trials">The answered trials.</param>
/// <param name="Right">Share of right answers with its range; null before the first answer.</param>
/// <param name="ChanceShare">Share that guessing would give: 1 over the options; 0 where nothing can be guessed.</param>
/// <param name="ErrorPercent">For rates: median error in per cent, sign dropped, with its range; null for choices and before six answers.</param>
/// <param name="ByDifficulty">Right answers at each difficulty, easiest first; empty when nothing varies.</param>
/// <param name="Says">The result in a sentence or two, and what to listen for next.</param>
public sealed record ListeningResult(
    string ExerciseId,
    IReadOnlyList<TrialResult> Trials,
    Estimate? Right,
    double ChanceShare,
    Estimate? ErrorPercent,
    IReadOnlyList<LevelShare> ByDifficulty,
    string Says)
{
    /// <summary>The threshold found, in dB, with its range; null when none was searched for.</summary>
    public Estimate? ThresholdDb { get; init; }
}
