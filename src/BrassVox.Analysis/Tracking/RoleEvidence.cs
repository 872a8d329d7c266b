using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Tells which of two tones is played and which is sung when nothing was declared; declines while it is not clear.</summary>
/// <remarks>
/// Lips are held by the instrument's resonance, a voice by nothing: over 50 to 200 ms the sung tone bends more. Measured on 48
/// recorded single notes in pairs (benchmark accuracy --made): the logarithm of the ratio of bends is 1.1 on the average, with a
/// standard deviation of 0.7, 0.6 where the pitches are sure; hence the weights. Ratios are averaged as logarithms, so that a few jumps do not decide. Singing above the played tone is the more usual (common practice, no source);
/// what lies below every voice is played, what lies above the instrument is sung. The spectrum's shape is left out on purpose:
/// a voice in the instrument sounds through the instrument.
/// </remarks>
internal sealed class RoleEvidence
{
    /// <summary>From here on a role is told: odds of about nine to one.</summary>
    public const double Clear = 2.2;

    // A range ends somewhere; a semitone beyond its end a tone surely does not belong to it.
    private const double Beyond = 1.0595;

    // Windows between the three points of a bend: 50 ms shows a vibrato, 200 ms a voice's wander, and none of them a steady glide.
    private static readonly int[] Lags = [5, 10, 20];

    private const double MeanRatio = 1.1;
    private const double SpreadRatio = 0.6;
    private const double AbovePrior = 1.0;

    // Of one tone's bend by itself: a mean ratio of 1.0 with a standard deviation of 0.6.
    private const double WeightAlone = 2.8;

    // Between the recorded instruments' bend of 3 cents and the voices' of 9, over 50 ms.
    private const double DividingBendCents = 5.5;

    // Bends under this are the measurement's own; single jumps count no more than the largest.
    private const double FloorCents = 1.0;
    private const double LargestCents = 30.0;

    // Three points carry their own errors into a bend: 1 + 4 + 1 times the variance of one.
    private const double NoiseInBend = 6.0;

    // Windows overlap: this many bends hold about as much as two independent ones.
    private const double FullAfter = 25.0;

    private readonly double[] _lower = new double[(2 * Lags[^1]) + 1];
    private readonly double[] _upper = new double[(2 * Lags[^1]) + 1];
    private readonly double[] _ratios = new double[Lags.Length];
    private readonly double[] _bends = new double[Lags.Length];
    private double _squares;
    private int _heard;

    /// <summary>Forgets; another pair begins.</summary>
    public void Reset()
    {
        Pause();
        Array.Clear(_ratios);
        Array.Clear(_bends);
        _squares = 0.0;
    }

    /// <summary>The same pair goes on after a gap.</summary>
    public void Pause() => _heard = 0;

    /// <summary>Adds one window's pitches, and the variance in square cents with which the less certain of them is known.</summary>
    public void Add(double lowerHz, double upperHz, double variance)
    {
        Shift(_lower, lowerHz);
        Shift(_upper, upperHz);
        _heard++;
        double floor = FloorCents + (NoiseInBend * variance);
        for (int i = 0; i < Lags.Length; i++)
        {
            if (_heard > 2 * Lags[i])
            {
                double lower = Bend(_lower, Lags[i]);
                _ratios[i] += 0.5 * Math.Log((Bend(_upper, Lags[i]) + floor) / (lower + floor));
                _squares += i == 0 ? lower : 0.0;
                _bends[i]++;
            }
        }
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

        double weights = 0.0;
        double sum = 0.0;
        for (int i = 0; i < Lags.Length; i++)
        {
            double weight = Math.Min(FullAfter, _bends[i]);
            sum += weight * _ratios[i] / Math.Max(1.0, _bends[i]);
            weights += weight;
        }

        return AbovePrior + (2.0 * MeanRatio / (SpreadRatio * SpreadRatio) * sum / Math.Max(FullAfter, weights));
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

        double bend = Math.Sqrt((_squares / Math.Max(1.0, _bends[0])) + FloorCents);
        return WeightAlone * Math.Log(DividingBendCents / bend) * Math.Min(1.0, _bends[0] / FullAfter);
    }

    private static double Bend(double[] cents, int lag)
    {
        int last = cents.Length - 1;
        double bend = cents[last] - (2.0 * cents[last - lag]) + cents[last - (2 * lag)];
        return Math.Min(bend * bend, LargestCents * LargestCents);
    }

    private static void Shift(double[] cents, double hz)
    {
        Array.Copy(cents, 1, cents, 0, cents.Length - 1);
        cents[^1] = Cents.PerOctave * Math.Log2(hz);
    }
}
