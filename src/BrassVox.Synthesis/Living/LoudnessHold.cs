namespace BrassVox.Synthesis.Living;

/// <summary>
/// Holds the loudness of a sound at a target by a slow gain: it follows over seconds, so beats and swells that can be counted stay. One thread;
/// allocates nothing after construction.
/// </summary>
/// <remarks>Source: the K weighting of ITU-R BS.1770-4 at any sample rate, by the analogue prototypes that an open loudness library derived from its tables.</remarks>
internal sealed class LoudnessHold
{
    private const double FollowSeconds = 2;
    private const double MostGain = 2;
    private readonly double[] _shelf = new double[5];
    private readonly double[] _highPass = new double[5];
    private readonly double _part;
    private double _shelfFirst;
    private double _shelfSecond;
    private double _highFirst;
    private double _highSecond;
    private double _meanSquare;

    internal LoudnessHold(int sampleRateHz)
    {
        _part = 1 - Math.Exp(-1 / (FollowSeconds * sampleRateHz));
        double k = Math.Tan(Math.PI * 1681.974450955533 / sampleRateHz);
        double high = Math.Pow(10, 3.999843853973347 / 20);
        double band = Math.Pow(high, 0.4996667741545416);
        Fill(_shelf, k, 0.7071752369554196, high, band, 1);
        k = Math.Tan(Math.PI * 38.13547087602444 / sampleRateHz);
        Fill(_highPass, k, 0.5003270373238773, 1, 0, 0);

        // The standard prints the second stage with 1, -2, 1 on top.
        (_highPass[0], _highPass[1], _highPass[2]) = (1, -2, 1);
    }

    /// <summary>Gain now.</summary>
    internal double Gain { get; private set; }

    /// <summary>Begins at a gain of 1.</summary>
    /// <param name="meanSquare">K-weighted mean square to be held.</param>
    internal void Reset(double meanSquare)
    {
        (_shelfFirst, _shelfSecond, _highFirst, _highSecond) = (0, 0, 0, 0);
        _meanSquare = meanSquare;
        Gain = 1;
    }

    /// <summary>Takes a sample as it is before the gain.</summary>
    internal void Take(double sample)
    {
        double shelf = Step(_shelf, sample, ref _shelfFirst, ref _shelfSecond);
        double weighted = Step(_highPass, shelf, ref _highFirst, ref _highSecond);
        _meanSquare += ((weighted * weighted) - _meanSquare) * _part;
    }

    /// <summary>Sets the gain from what has been taken.</summary>
    /// <param name="meanSquare">K-weighted mean square to be held.</param>
    internal void Look(double meanSquare) =>
        Gain = Math.Clamp(Math.Sqrt(meanSquare / (_meanSquare + 1e-12)), 1 / MostGain, MostGain);

    private static double Step(double[] c, double x, ref double first, ref double second)
    {
        double y = (c[0] * x) + first;
        first = (c[1] * x) - (c[3] * y) + second + 1e-30;
        second = (c[2] * x) - (c[4] * y);
        return y;
    }

    private static void Fill(double[] c, double k, double q, double high, double band, double low)
    {
        double norm = 1 / (1 + (k / q) + (k * k));
        c[0] = (high + (band * k / q) + (low * k * k)) * norm;
        c[1] = 2 * ((low * k * k) - high) * norm;
        c[2] = (high - (band * k / q) + (low * k * k)) * norm;
        c[3] = 2 * ((k * k) - 1) * norm;
        c[4] = (1 - (k / q) + (k * k)) * norm;
    }
}
