using BrassVox.Practice.Sessions;

namespace BrassVox.Practice.Log;

/// <summary>What a listening set came to.</summary>
/// <param name="At">When it ended.</param>
/// <param name="Player">Name of the player's profile; empty for the only one.</param>
/// <param name="ExerciseId">The exercise.</param>
/// <param name="Trials">Answered trials, at least 1.</param>
/// <param name="Right">Right answers among them.</param>
/// <param name="ChanceShare">Share of right answers that guessing would give, 0 to 1.</param>
/// <param name="ErrorPercent">For rates: median error in per cent; null for choices and before six answers.</param>
/// <param name="IsSimulated">True for invented data.</param>
public sealed record ListeningEntry(
    DateTimeOffset At, string Player, string ExerciseId, int Trials, int Right, double ChanceShare, double? ErrorPercent, bool IsSimulated = false)
{
    /// <summary>An entry of a finished set; null when nothing was answered.</summary>
    /// <param name="result">The set.</param>
    /// <param name="player">Name of the player's profile.</param>
    /// <param name="at">When it ended.</param>
    public static ListeningEntry? Of(ListeningResult result, string player, DateTimeOffset at) => result.Trials.Count == 0
        ? null
        : new ListeningEntry(
            at, player, result.ExerciseId, result.Trials.Count, result.Trials.Count(trial => trial.Right), result.ChanceShare, result.ErrorPercent?.Value);
}
