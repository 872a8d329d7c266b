using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Tells which of two tones is played and which is sung when nothing was declared; declines while it is not clear.</summary>
/// <remarks>
/// Lips are held by the instrument's resonance, a voice by nothing: over 100 ms the sung tone bends more. Measured on 48
/// recorded single notes in pairs (benchmark accuracy): the logarithm of the ratio of bends is 1.0 on the average, with a
/// standard deviation of 0.6; hence the weights. Singing above the played tone is the more usual (common practice, no source);
/// what lies below every voice is played, what lies above the instrument is sung. The spectrum's shape is left out on purpose:
/// a voice in the instrument sounds through the instrument.
/// </remarks>
internal sealed class RoleEvidence
{
    /// <summary>From here on a role is told: odds of about nine to one.</summary>
    public const double Clear = 2.2;

    // A range ends somewhere; a semitone beyond its end a tone surely does not belong to it.
    private const double Beyond = 1.0595;

    private const int Lag = 5;
    private const double MeanRatio = 1.0;
    private const double SpreadRatio = 0.6;
    private const double AbovePrior = 1.0;

    // Between the recorded instruments' bend of 3 cents and the voices' of 9.
    private const double DividingBendCents = 5.5;

    // Bends under this are the measurement's own; single jumps count no more than the largest.
    private const double FloorCents = 1.0;
    private const double LargestCents = 30.0;

    // Windows overlap: this many bends hold about as much as two independent ones.
    private const double FullAfter = 25.0;

    private readonly double[] _lower = new double[(2 * Lag) + 1];
    private readonly double[] _upper = new double[(2 * Lag) + 1];
    private int _heard;
    private double _bendLower;
    private double _bendUpper;
    private double _bends;

    /// <summary>Forgets; another pair begins.</summary>
    public void Reset() => (_heard, _bendLower, _bendUpper, _bends) = (0, 0.0, 0.0, 0.0);

    /// <summary>Adds one window's pitches.</summary>
    public void Add(double lowerHz, double upperHz)
    {
        Shift(_lower, lowerHz);
        Shift(_upper, upperHz);
        if (++_heard < _lower.Length)
        {
            return;
        }

        _bendLower += Bend(_lower);
        _bendUpper += Bend(_upper);
        _bends++;
    }

    /// <summary>Logarithm of the odds that the lower tone is the played one.</summary>
    public double LowerIsPlayed(double lowerHz, double upperHz, DuetPrior prior)
    {
        if (lowerHz < prior.SungLowestHz / Beyond || upperHz > prior.PlayedHighestHz * Beyond)
        {
            return 2.0 * Clear;
        }

        if (lowerHz < prior.PlayedLowestHz / Beyond || upperHz > prior.SungHighestHz * Beyond)
        {
            return -2.0 * Clear;
        }

        double ratio = 0.5 * Math.Log((_bendUpper + (_bends * FloorCents) + 1e-9) / (_bendLower + (_bends * FloorCents) + 1e-9));
        return AbovePrior + (2.0 * MeanRatio / (SpreadRatio * SpreadRatio) * ratio * Math.Min(1.0, _bends / FullAfter));
    }

    /// <summary>Logarithm of the odds that a tone heard alone (added as both) is the played one.</summary>
    public double AloneIsPlayed(double hz, DuetPrior prior)
    {
        if (hz < prior.SungLowestHz || hz > prior.SungHighestHz)
        {
            return 2.0 * Clear;
        }

        if (hz < prior.PlayedLowestHz || hz > prior.PlayedHighestHz)
        {
            return -2.0 * Clear;
        }

        double bend = Math.Sqrt((_bendLower / Math.Max(1.0, _bends)) + FloorCents);
        return MeanRatio / (SpreadRatio * SpreadRatio) * Math.Log(DividingBendCents / bend) * Math.Min(1.0, _bends / FullAfter);
    }

    private static double Bend(double[] cents)
    {
        double bend = cents[2 * Lag] - (2.0 * cents[Lag]) + cents[0];
        return Math.Min(bend * bend, LargestCents * LargestCents);
    }

    private static void Shift(double[] cents, double hz)
    {
        Array.Copy(cents, 1, cents, 0, cents.Length - 1);
        cents[^1] = Cents.PerOctave * Math.Log2(hz);
    }
}
