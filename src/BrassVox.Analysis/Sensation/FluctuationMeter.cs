using BrassVox.Analysis.Transforms;

namespace BrassVox.Analysis.Sensation;

/// <summary>Fluctuation strength of a sound in vacil: how strongly a listener hears it swell, at a few beats a second.</summary>
/// <remarks>
/// One instance serves one thread; measuring allocates nothing. 1 vacil is the strength of a 1 kHz tone of 60 dB whose
/// amplitude is wholly modulated at 4 Hz (Fastl and Zwicker, Psychoacoustics).
/// Source: Osses, Garcia and Kohlrausch 2016; their filters are given for 48 kHz and are carried to the rate of the envelope.
/// We read the envelope at about 1.5 kHz (means of blocks), far above the 20 Hz that the filters pass.
/// Limits: tones that swell in level come out as listeners say, but modulated noise reads about twice and a tone gliding
/// up and down eight times a second about three times what the listeners of that paper gave. Bands drop in and out at the
/// threshold of hearing, so a level change of a fraction of a dB can shift the value by some 8 %.
/// </remarks>
public sealed class FluctuationMeter
{
    private const double Calibration = 0.498;
    private const double DepthExponent = 1.7;
    private const double LikenessExponent = 1.7;
    private const double CompressedAbove = 0.7;
    private const double CompressedSlope = 0.3;
    private const double WindowSeconds = 2.0;
    private const double RampSeconds = 0.05;
    private const double EnvelopeHz = 1_500.0;

    private static readonly BrokenLine Importance = new((0, 1), (13, 1), (15, 0.9), (17.5, 0.7), (24, 0.5));

    private static readonly Biquad[] FiltersAt48kHz =
    [
        new(0.9998738410329782, -1.9997476820659563, 0.9998738410329782, -1.9997476661498712, 0.9997476979820413),
        new(7.726735179422239e-7, 1.5453470358844478e-6, 7.726735179422239e-7, -1.9986518191092326, 0.9986549098033047),
        new(7.719393091742981e-7, 1.5438786183485962e-6, 7.719393091742981e-7, -1.9967526629254815, 0.9967557506827183),
    ];

    private readonly EarBands _bands;
    private readonly Biquad[] _filters;
    private readonly int _block;
    private readonly double[] _first;
    private readonly double[] _second;
    private readonly double[][] _swell = new double[EarBands.Count][];
    private readonly double[] _depth = new double[EarBands.Count];
    private readonly double[] _alike = new double[EarBands.Count];
    private readonly double[] _specific = new double[EarBands.Count];

    /// <summary>Prepares a rate.</summary>
    /// <param name="sampleRateHz">Rate of the samples in Hz, 8000 to 192 000.</param>
    /// <param name="fullScaleDbSpl">Sound pressure level in dB that a sine of amplitude 1 stands for; finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public FluctuationMeter(int sampleRateHz, double fullScaleDbSpl)
    {
        SensationFormat.Check(sampleRateHz, fullScaleDbSpl);
        SampleRateHz = sampleRateHz;
        WindowSamples = FourierPlan.FastLength((int)(WindowSeconds * sampleRateHz));
        _bands = new EarBands(
            sampleRateHz,
            fullScaleDbSpl,
            Ramped(WindowSamples, sampleRateHz),
            WindowSamples,
            EarBands.TransmissionWithoutEarCanal);
        _block = (int)Math.Round(sampleRateHz / EnvelopeHz);
        double envelopeHz = (double)sampleRateHz / _block;
        _filters = [.. FiltersAt48kHz.Select(filter => filter.CarriedTo(48_000.0, envelopeHz))];
        _first = new double[WindowSamples];
        _second = new double[WindowSamples];
        for (int band = 0; band < EarBands.Count; band++)
        {
            _swell[band] = new double[WindowSamples / _block];
        }
    }

    /// <summary>Rate of the samples in Hz.</summary>
    public int SampleRateHz { get; }

    /// <summary>Window length in samples: 2 s, lengthened by a few samples where that makes the transform fast.</summary>
    public int WindowSamples { get; }

    /// <summary>Distance of windows over a take in samples: a tenth of a window.</summary>
    public int HopSamples => WindowSamples / 10;

    /// <summary>Specific fluctuation strength of the last window in vacil per Bark, at 0.5, 1, ... 23.5 Bark.</summary>
    public ReadOnlySpan<double> SpecificVacilPerBark => _specific;

    /// <summary>Fluctuation strength of one window.</summary>
    /// <param name="window"><see cref="WindowSamples"/> samples, full scale 1; those that are not finite count as 0.</param>
    /// <returns>Vacil, at least 0; 0 for silence.</returns>
    /// <exception cref="ArgumentException">The window has another length.</exception>
    public double Measure(ReadOnlySpan<float> window)
    {
        if (window.Length != WindowSamples)
        {
            throw new ArgumentException($"The window has {window.Length} samples; {WindowSamples} are needed.", nameof(window));
        }

        _bands.Take(window);
        for (int band = 0; band < EarBands.Count; band += 2)
        {
            _bands.Rectified(band, _first, _second);
            TakeSwell(band, _first);
            if (band + 1 < EarBands.Count)
            {
                TakeSwell(band + 1, _second);
            }
        }

        for (int band = 0; band < EarBands.Count - 2; band++)
        {
            bool bothSwell = _depth[band] > EarBands.SteadyBelow && _depth[band + 2] > EarBands.SteadyBelow;
            _alike[band] = bothSwell ? Alike(_swell[band], _swell[band + 2]) : 0.0;
        }

        return Sum();
    }

    /// <summary>Fluctuation strength over a take.</summary>
    /// <param name="mono">Samples, full scale 1; a take shorter than a window gives no value.</param>
    /// <returns>Vacil; value i belongs to the window that starts at i <see cref="HopSamples"/>.</returns>
    public IReadOnlyList<double> OverTake(ReadOnlySpan<float> mono)
    {
        List<double> values = [];
        for (int start = 0; start + WindowSamples <= mono.Length; start += HopSamples)
        {
            values.Add(Measure(mono.Slice(start, WindowSamples)));
        }

        return values;
    }

    /// <summary>Fluctuation strength of broadband noise whose amplitude is modulated, in closed form.</summary>
    /// <param name="levelDbSpl">Level in dB SPL, finite.</param>
    /// <param name="depth">Modulation degree, 0 to 1.</param>
    /// <param name="rateHz">Modulation rate in Hz, &gt; 0.</param>
    /// <returns>Vacil, at least 0.</returns>
    /// <remarks>Source: Fastl and Zwicker, Psychoacoustics, equation 10.2; values below 0 (faint or hardly modulated noise) are set to 0.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double OfModulatedNoise(double levelDbSpl, double depth, double rateHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(depth);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(depth, 1.0);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(rateHz);
        double ofDepth = Math.Max(0.0, (1.25 * depth) - 0.25);
        double ofLevel = Math.Max(0.0, (0.05 * levelDbSpl) - 1.0);
        double ofRate = (rateHz / 5.0 * (rateHz / 5.0)) + (4.0 / rateHz) + 1.5;
        return 5.8 * ofDepth * ofLevel / ofRate;
    }

    private static double[] Ramped(int length, int sampleRateHz)
    {
        int ramp = (int)(RampSeconds * sampleRateHz);
        double[] window = new double[length];
        for (int i = 0; i < length; i++)
        {
            int fromEnd = Math.Min(i, length - 1 - i);
            window[i] = fromEnd < ramp ? 0.5 - (0.5 * Math.Cos(Math.PI * (fromEnd + 0.5) / ramp)) : 1.0;
        }

        return window;
    }

    private static double Alike(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double meanA = Mean(a), meanB = Mean(b);
        double ab = 0.0, aa = 0.0, bb = 0.0;
        for (int i = 0; i < a.Length; i++)
        {
            double x = a[i] - meanA, y = b[i] - meanB;
            ab += x * y;
            aa += x * x;
            bb += y * y;
        }

        return ab / Math.Sqrt(aa * bb);
    }

    private static double Mean(ReadOnlySpan<double> values)
    {
        double sum = 0.0;
        foreach (double value in values)
        {
            sum += value;
        }

        return sum / values.Length;
    }

    private static double Raised(double likeness) =>
        Math.CopySign(Math.Pow(Math.Abs(likeness), LikenessExponent), likeness);

    private void TakeSwell(int band, ReadOnlySpan<double> rectified)
    {
        double[] swell = _swell[band];
        for (int i = 0; i < swell.Length; i++)
        {
            swell[i] = Mean(rectified.Slice(i * _block, _block));
        }

        double mean = Mean(swell);
        double power = 0.0;
        for (int i = 0; i < swell.Length; i++)
        {
            swell[i] -= mean;
        }

        foreach (Biquad filter in _filters)
        {
            filter.Run(swell);
        }

        foreach (double value in swell)
        {
            power += value * value;
        }

        double depth = mean > 0.0 ? Math.Sqrt(power / swell.Length) / mean : 0.0;
        _depth[band] = depth > CompressedAbove ? CompressedAbove + (CompressedSlope * (depth - CompressedAbove)) : depth;
    }

    private double Sum()
    {
        double sum = 0.0;
        for (int band = 0; band < EarBands.Count; band++)
        {
            double below = band >= 2 ? _alike[band - 2] : 1.0;
            double above = band < EarBands.Count - 2 ? _alike[band] : 1.0;
            double importance = Importance.At(0.5 * (band + 1));
            _specific[band] = Calibration * importance * Math.Pow(_depth[band], DepthExponent) * Raised(below * above);
            sum += 0.5 * _specific[band];
        }

        return Math.Max(0.0, sum);
    }
}
