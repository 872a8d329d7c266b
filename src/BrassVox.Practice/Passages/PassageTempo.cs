namespace BrassVox.Practice.Passages;

/// <summary>A tempo from a tick on.</summary>
/// <param name="Tick">Where it begins.</param>
/// <param name="QuartersPerMinute">Quarter notes a minute, 10 to 400.</param>
public readonly record struct PassageTempo(long Tick, double QuartersPerMinute)
{
    /// <summary>Slowest tempo, in quarter notes a minute.</summary>
    public const double Slowest = 10;

    /// <summary>Fastest tempo, in quarter notes a minute.</summary>
    public const double Fastest = 400;
}
