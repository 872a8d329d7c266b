namespace BrassVox.Analysis.Loudness;

/// <summary>The two filters that a loudness meter puts before measuring, one channel's state. One thread; nothing is allocated.</summary>
/// <remarks>
/// Source: ITU-R BS.1770, tables 1 and 2 (48 kHz). For other rates the analogue originals are used that reproduce these tables:
/// shelf of 3.99984 dB at 1681.97 Hz, Q 0.70718; high-pass at 38.1355 Hz, Q 0.50033.
/// </remarks>
public sealed class KWeighting
{
    private readonly double _b0;
    private readonly double _b1;
    private readonly double _b2;
    private readonly double _a1;
    private readonly double _a2;
    private readonly double _highA1;
    private readonly double _highA2;
    private double _shelf1;
    private double _shelf2;
    private double _high1;
    private double _high2;

    /// <summary>Prepares a rate.</summary>
    /// <param name="sampleRateHz">Rate in Hz, 8000 to 384 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is outside its range.</exception>
    public KWeighting(int sampleRateHz)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sampleRateHz, 384_000);
        const double shelfQ = 0.7071752369554196;
        double k = Math.Tan(Math.PI * 1681.974450955533 / sampleRateHz);
        double high = Math.Pow(10.0, 3.999843853973347 / 20.0);
        double band = Math.Pow(high, 0.4996667741545416);
        double scale = 1.0 + (k / shelfQ) + (k * k);
        _b0 = (high + (band * k / shelfQ) + (k * k)) / scale;
        _b1 = 2.0 * ((k * k) - high) / scale;
        _b2 = (high - (band * k / shelfQ) + (k * k)) / scale;
        _a1 = 2.0 * ((k * k) - 1.0) / scale;
        _a2 = (1.0 - (k / shelfQ) + (k * k)) / scale;

        const double highPassQ = 0.5003270373238773;
        k = Math.Tan(Math.PI * 38.13547087602444 / sampleRateHz);
        scale = 1.0 + (k / highPassQ) + (k * k);
        _highA1 = 2.0 * ((k * k) - 1.0) / scale;
        _highA2 = (1.0 - (k / highPassQ) + (k * k)) / scale;
    }

    /// <summary>Coefficients b0, b1, b2, a1, a2 of the shelf and a1, a2 of the high-pass (whose b are 1, -2, 1).</summary>
    internal (double B0, double B1, double B2, double A1, double A2, double HighA1, double HighA2) Coefficients =>
        (_b0, _b1, _b2, _a1, _a2, _highA1, _highA2);

    /// <summary>Filters one sample; one that is not finite counts as 0.</summary>
    /// <param name="sample">The sample.</param>
    public double Next(double sample)
    {
        double x = double.IsFinite(sample) ? sample : 0.0;
        double y = (_b0 * x) + _shelf1;
        _shelf1 = (_b1 * x) - (_a1 * y) + _shelf2;
        _shelf2 = (_b2 * x) - (_a2 * y);
        double z = y + _high1;
        _high1 = (-2.0 * y) - (_highA1 * z) + _high2;
        _high2 = y - (_highA2 * z);
        return z;
    }

    /// <summary>Forgets the past.</summary>
    public void Reset() => _shelf1 = _shelf2 = _high1 = _high2 = 0.0;
}
