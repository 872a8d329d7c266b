using BrassVox.Practice.Takes;

namespace BrassVox.Practice.Log;

/// <summary>A stretch of practice. Kept apart from the takes: what was sung stays sung when a take is deleted.</summary>
/// <param name="At">When it ended.</param>
/// <param name="Player">Name of the player's profile; empty for the only one.</param>
/// <param name="ExerciseId">The exercise; empty for none.</param>
/// <param name="Seconds">Length in seconds, at least 0.</param>
/// <param name="SungSeconds">How much of it was sung, in seconds.</param>
/// <param name="IsSimulated">True for invented data.</param>
public sealed record PracticeSpell(
    DateTimeOffset At, string Player, string ExerciseId, double Seconds, double SungSeconds, bool IsSimulated = false)
{
    /// <summary>The practice that a take was: as long as it asked for, sung as long as a voice was heard; where the program's own sound hid that, as long as it was asked for.</summary>
    /// <param name="take">The take.</param>
    public static PracticeSpell Of(TakeRecord take) => new(
        take.MadeAt,
        take.PlayerName ?? "",
        take.ExerciseId,
        Math.Max(take.Result.Played?.AskedSeconds ?? 0, take.Result.Sung?.AskedSeconds ?? 0),
        Sung(take),
        take.IsSimulated);

    // Under a drone that stays in nobody knows how long the voice sounded: for the sake of the throat, all of what was asked.
    private static double Sung(TakeRecord take) => take switch
    {
        { Result.Sung: null } => 0,
        { Drone.IsTakenOut: false, Result.Sung: var sung } => sung.AskedSeconds,
        { Result.Sung: var sung } => sung.HeardSeconds,
    };
}
