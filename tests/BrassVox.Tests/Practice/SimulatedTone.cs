namespace BrassVox.Tests.Practice;

/// <summary>What a simulated player does with one tone, against the path that is asked.</summary>
internal sealed record SimulatedTone
{
    /// <summary>Constant distance from the path.</summary>
    public double OffsetCents { get; init; }

    /// <summary>Standard deviation of a slow wander of 4, 7 and 11 cycles in the take.</summary>
    public double SpreadCents { get; init; }

    /// <summary>Rise from the beginning to the end of the take.</summary>
    public double DriftCents { get; init; }

    /// <summary>Vibrato to each side.</summary>
    public double VibratoCents { get; init; }

    /// <summary>Vibrato rate.</summary>
    public double VibratoHz { get; init; } = 5.5;

    /// <summary>When the tone begins, later than asked.</summary>
    public double LateSeconds { get; init; }

    /// <summary>A shift that begins at <see cref="FlinchAtSeconds"/> and lasts a second.</summary>
    public double FlinchCents { get; init; }

    /// <summary>When it flinches.</summary>
    public double FlinchAtSeconds { get; init; }

    /// <summary>A silence of half a second from here on; null for none.</summary>
    public double? GapAtSeconds { get; init; }

    /// <summary>A sudden lasting step.</summary>
    public double JumpCents { get; init; }

    /// <summary>When it jumps.</summary>
    public double JumpAtSeconds { get; init; }

    /// <summary>False when the tone is never made.</summary>
    public bool Sounds { get; init; } = true;

    /// <summary>How much louder P is made from one asked stretch to the next.</summary>
    public double GrowsByDb { get; init; } = 6;

    /// <summary>When it stops for good; null for as long as asked.</summary>
    public double? StopsAtSeconds { get; init; }

    /// <summary>Cents from the asked path at a time of the take.</summary>
    public double Cents(double seconds, double takeSeconds)
    {
        // Three sines, each of whole cycles over the take and odd about its middle, so that mean and median are zero;
        // amplitude a each gives a standard deviation of a sqrt(3/2).
        double a = SpreadCents / Math.Sqrt(1.5);
        double u = 2 * Math.PI * ((seconds / takeSeconds) - 0.5);
        double wander = a * (Math.Sin(4 * u) + Math.Sin(7 * u) + Math.Sin(11 * u));
        double vibrato = VibratoCents * Math.Sin(2 * Math.PI * VibratoHz * seconds);
        double flinch = FlinchCents != 0 && seconds >= FlinchAtSeconds && seconds < FlinchAtSeconds + 1 ? FlinchCents : 0;
        double jump = JumpCents != 0 && seconds >= JumpAtSeconds ? JumpCents : 0;
        return OffsetCents + wander + vibrato + flinch + jump + (DriftCents * ((seconds / takeSeconds) - 0.5));
    }

    /// <summary>True when the tone is made at a time of the take.</summary>
    public bool IsSounding(double seconds) => Sounds
        && seconds >= LateSeconds
        && !(GapAtSeconds is { } gap && seconds >= gap && seconds < gap + 0.5)
        && !(StopsAtSeconds is { } end && seconds >= end);
}
