using BrassVox.Analysis.Transforms;
using MathNet.Numerics.Interpolation;

namespace BrassVox.Analysis.Sensation;

/// <summary>Roughness of a sound in asper: how grainy a listener with ordinary hearing finds it.</summary>
/// <remarks>
/// One instance serves one thread; measuring allocates nothing. 1 asper is the roughness of a 1 kHz tone of 60 dB whose
/// amplitude is wholly modulated at 70 Hz; a difference of about 17 % is just heard (Zwicker and Fastl, Psychoacoustics).
/// The result depends on level: without a calibrated microphone compare takes made with one setting.
/// Source: Daniel and Weber 1997. Their factor of 0.5 belongs to another reading of the upper slope (see <see cref="EarBands"/>);
/// ours is 0.3947, fitted so that the defining sound gives 1.
/// </remarks>
public sealed class RoughnessMeter
{
    private const double Calibration = 0.3947;
    private const double WindowSeconds = 0.2;
    private const int FirstBinHeard = 2;

    private static readonly BrokenLine[] ModulationWeights =
    [
        new((0, 0), (17, .8), (23, .95), (25, .975), (32, 1), (37, .975), (48, .9), (67, .8), (90, .7), (114, .6), (171, .4),
            (206, .3), (247, .2), (294, .1), (358, 0)),
        new((0, 0), (32, .8), (43, .95), (56, 1), (69, .975), (92, .9), (120, .8), (142, .7), (165, .6), (231, .4), (277, .3),
            (331, .2), (397, .1), (502, 0)),
        new((0, 0), (23.5, .4), (34, .6), (47, .8), (56, .9), (63, .95), (79, 1), (100, .975), (115, .95), (135, .9),
            (159, .85), (172, .8), (194, .7), (215, .6), (244, .5), (290, .4), (348, .3), (415, .2), (500, .1), (645, 0)),
        new((0, 0), (19, .4), (44, .8), (52.5, .9), (58, .95), (75, 1), (101.5, .95), (114.5, .9), (132.5, .85), (143.5, .8),
            (165.5, .7), (197.5, .6), (241, .5), (290, .4), (348, .3), (415, .2), (500, .1), (645, 0)),
        new((0, 0), (15, .4), (41, .8), (49, .9), (53, .965), (64, .99), (71, 1), (88, .95), (94, .9), (106, .85), (115, .8),
            (137, .7), (180, .6), (238, .5), (290, .4), (348, .3), (415, .2), (500, .1), (645, 0)),
    ];

    private readonly EarBands _bands;
    private readonly double[] _importance = new double[EarBands.Count];
    private readonly double[][] _weights;
    private readonly double[] _first;
    private readonly double[] _second;
    private readonly double[][] _envelopeRe;
    private readonly double[][] _envelopeIm;
    private readonly double[] _depth = new double[EarBands.Count];
    private readonly double[] _power = new double[EarBands.Count];
    private readonly double[] _alike = new double[EarBands.Count];
    private readonly double[] _specific = new double[EarBands.Count];
    private readonly int _bins;

    /// <summary>Prepares a rate.</summary>
    /// <param name="sampleRateHz">Rate of the samples in Hz, 8000 to 192 000. At 40 kHz or more the whole band of hearing counts.</param>
    /// <param name="fullScaleDbSpl">Sound pressure level in dB that a sine of amplitude 1 stands for; finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public RoughnessMeter(int sampleRateHz, double fullScaleDbSpl)
    {
        SensationFormat.Check(sampleRateHz, fullScaleDbSpl);
        WindowSamples = FourierPlan.FastLength((int)Math.Round(WindowSeconds * sampleRateHz));
        SampleRateHz = sampleRateHz;
        double[] window = Blackman(WindowSamples);
        _bands = new EarBands(sampleRateHz, fullScaleDbSpl, window, window.Sum(), EarBands.TransmissionWithEarCanal);
        _first = new double[WindowSamples];
        _second = new double[WindowSamples];
        double binHz = (double)sampleRateHz / WindowSamples;
        _bins = (int)(645.0 / binHz) + 1;
        _weights = new double[ModulationWeights.Length][];
        for (int i = 0; i < _weights.Length; i++)
        {
            _weights[i] = new double[_bins];
            for (int bin = FirstBinHeard; bin < _bins; bin++)
            {
                _weights[i][bin] = ModulationWeights[i].At(bin * binHz);
            }
        }

        _envelopeRe = new double[EarBands.Count][];
        _envelopeIm = new double[EarBands.Count][];
        CubicSpline importance = CubicSpline.InterpolateNatural(
            [0, 1, 2.5, 4.9, 6.5, 8, 9, 10, 11, 11.5, 13, 17.5, 21, 24],
            [0, .35, .7, .7, 1.1, 1.25, 1.26, 1.18, 1.08, 1, .66, .46, .38, .3]);
        for (int band = 0; band < EarBands.Count; band++)
        {
            _envelopeRe[band] = new double[_bins];
            _envelopeIm[band] = new double[_bins];
            _importance[band] = Math.Sqrt(importance.Interpolate(0.5 * (band + 1)));
        }
    }

    /// <summary>Rate of the samples in Hz.</summary>
    public int SampleRateHz { get; }

    /// <summary>Window length in samples: 200 ms, lengthened by a few samples where that makes the transform fast.</summary>
    public int WindowSamples { get; }

    /// <summary>Distance of windows over a take in samples: half a window.</summary>
    public int HopSamples => WindowSamples / 2;

    /// <summary>Specific roughness of the last window in asper per Bark, at 0.5, 1, ... 23.5 Bark.</summary>
    public ReadOnlySpan<double> SpecificAsperPerBark => _specific;

    /// <summary>Roughness of one window.</summary>
    /// <param name="window"><see cref="WindowSamples"/> samples, full scale 1; those that are not finite count as 0.</param>
    /// <returns>Asper, at least 0; 0 for silence.</returns>
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
            double firstMean = Mean(_first);
            double secondMean = Mean(_second);
            MeasureEnvelopes(band, firstMean, secondMean);
        }

        for (int band = 0; band < EarBands.Count - 2; band++)
        {
            _alike[band] = Alike(band, band + 2);
        }

        return Sum();
    }

    /// <summary>Roughness over a take, one value for each half window.</summary>
    /// <param name="mono">Samples, full scale 1; a take shorter than a window gives no value.</param>
    /// <returns>Asper; value i belongs to the window that starts at i <see cref="HopSamples"/>.</returns>
    public IReadOnlyList<double> OverTake(ReadOnlySpan<float> mono)
    {
        List<double> values = [];
        for (int start = 0; start + WindowSamples <= mono.Length; start += HopSamples)
        {
            values.Add(Measure(mono.Slice(start, WindowSamples)));
        }

        return values;
    }

    private static double[] Blackman(int length)
    {
        double[] window = new double[length];
        for (int i = 0; i < length; i++)
        {
            double turn = 2.0 * Math.PI * i / length;
            window[i] = 0.42 - (0.5 * Math.Cos(turn)) + (0.08 * Math.Cos(2.0 * turn));
        }

        return window;
    }

    private static int WeightIndexOf(int band) => (band + 1) switch
    {
        <= 4 => 0,
        <= 15 => 1,
        <= 20 => 2,
        <= 41 => 3,
        _ => 4,
    };

    private static double Mean(ReadOnlySpan<double> values)
    {
        double sum = 0.0;
        foreach (double value in values)
        {
            sum += value;
        }

        return sum / values.Length;
    }

    /// <summary>Weighted envelope spectra of two bands at once: one transform of first + i second, taken apart again.</summary>
    private void MeasureEnvelopes(int band, double firstMean, double secondMean)
    {
        _bands.Transform(_first, _second);
        bool paired = band + 1 < EarBands.Count;
        for (int bin = FirstBinHeard; bin < _bins; bin++)
        {
            double re = _first[bin], im = _second[bin];
            double mirrorRe = _first[WindowSamples - bin], mirrorIm = _second[WindowSamples - bin];
            double weight = _weights[WeightIndexOf(band)][bin] / WindowSamples;
            _envelopeRe[band][bin] = 0.5 * weight * (re + mirrorRe);
            _envelopeIm[band][bin] = 0.5 * weight * (im - mirrorIm);
            if (paired)
            {
                weight = _weights[WeightIndexOf(band + 1)][bin] / WindowSamples;
                _envelopeRe[band + 1][bin] = 0.5 * weight * (im + mirrorIm);
                _envelopeIm[band + 1][bin] = 0.5 * weight * (mirrorRe - re);
            }
        }

        SetDepth(band, firstMean);
        if (paired)
        {
            SetDepth(band + 1, secondMean);
        }
    }

    private void SetDepth(int band, double mean)
    {
        _power[band] = Product(band, band);
        _depth[band] = mean > 0.0 ? Math.Min(1.0, Math.Sqrt(2.0 * _power[band]) / mean) : 0.0;
    }

    private double Alike(int band, int other)
    {
        bool bothSwell = _depth[band] > EarBands.SteadyBelow && _depth[other] > EarBands.SteadyBelow;
        return bothSwell ? Product(band, other) / Math.Sqrt(_power[band] * _power[other]) : 0.0;
    }

    private double Product(int band, int other)
    {
        double sum = 0.0;
        for (int bin = FirstBinHeard; bin < _bins; bin++)
        {
            sum += (_envelopeRe[band][bin] * _envelopeRe[other][bin]) + (_envelopeIm[band][bin] * _envelopeIm[other][bin]);
        }

        return sum;
    }

    private double Sum()
    {
        double sum = 0.0;
        for (int band = 0; band < EarBands.Count; band++)
        {
            double below = band >= 2 ? _alike[band - 2] : 1.0;
            double above = band < EarBands.Count - 2 ? _alike[band] : 1.0;
            double root = _importance[band] * _depth[band] * below * above;
            _specific[band] = Calibration * root * root;
            sum += 0.5 * _specific[band];
        }

        return sum;
    }
}
