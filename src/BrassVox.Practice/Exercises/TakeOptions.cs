namespace BrassVox.Practice.Exercises;

/// <summary>How a player takes an exercise today. The exercise itself stays as it is.</summary>
/// <param name="Role">Which tone the player makes.</param>
/// <param name="Drone">What the program sounds of the player's tones.</param>
/// <param name="TempoPercent">Tempo in per cent of the written one, 40 to 110; nothing changes where the exercise counts seconds.</param>
public sealed record TakeOptions(PlayerRole Role = PlayerRole.Both, DroneUse Drone = DroneUse.Planned, double TempoPercent = 100)
{
    /// <summary>Slowest tempo in per cent.</summary>
    public const double SlowestPercent = 40;

    /// <summary>Fastest tempo in per cent.</summary>
    public const double FastestPercent = 110;

    /// <summary>Length of a stretch with and of one without the drone, in seconds. Ours.</summary>
    public const double DropOutSeconds = 3;

    /// <summary>A take as these options ask for it. Pure.</summary>
    /// <param name="resolved">A resolved play-along exercise.</param>
    /// <exception cref="ArgumentOutOfRangeException">The tempo is out of range.</exception>
    public ResolvedExercise Apply(ResolvedExercise resolved)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(TempoPercent, SlowestPercent);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(TempoPercent, FastestPercent);
        double stretch = resolved.Exercise.PlayAlong?.TempoBpm is null ? 1 : 100 / TempoPercent;
        return resolved with
        {
            Steps = [.. resolved.Steps.Select(step => TakeShaping.Shaped(step, this, stretch))],
            Stretch = resolved.Stretch * stretch,
        };
    }
}
