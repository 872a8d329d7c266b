using BrassVox.Practice.Sessions;

namespace BrassVox.App.Cli;

/// <summary>What a listening exercise prints with --json.</summary>
internal sealed record ListeningReport(
    string ExerciseId,
    int Trials,
    int Right,
    EstimateReport? RightShare,
    double ChanceShare,
    EstimateReport? ErrorPercent,
    IReadOnlyList<LevelShare> ByDifficulty,
    string Says,
    IReadOnlyList<TrialReport> Answers)
{
    public static ListeningReport Of(ListeningResult result) => new(
        result.ExerciseId, result.Trials.Count, result.Trials.Count(trial => trial.Right),
        EstimateReport.Of(result.Right), Math.Round(result.ChanceShare, 6), EstimateReport.Of(result.ErrorPercent), result.ByDifficulty, result.Says,
        [.. result.Trials.Select(trial => new TrialReport(
            trial.Trial.Number, trial.Trial.Difficulty, trial.Right, trial.Answer, trial.Truth,
            trial.ErrorPercent is { } error ? Math.Round(error, 3) : null, trial.TimesHeard))]);
}

/// <summary>A figure with its 95 per cent range.</summary>
internal sealed record EstimateReport(double Value, double Low95, double High95)
{
    public static EstimateReport? Of(Estimate? estimate) => estimate is { } told
        ? new EstimateReport(Math.Round(told.Value, 6), Math.Round(told.Low, 6), Math.Round(told.High, 6))
        : null;
}

/// <summary>One answered trial.</summary>
internal sealed record TrialReport(
    int Number, double? Difficulty, bool Right, string Answer, string Truth, double? ErrorPercent, int TimesHeard);
