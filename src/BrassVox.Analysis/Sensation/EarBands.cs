using BrassVox.Analysis.Transforms;
using BrassVox.Theory;

namespace BrassVox.Analysis.Sensation;

/// <summary>The front end that both sensation models share: a windowed frame spread over 47 overlapping critical bands.</summary>
/// <remarks>
/// One instance serves one thread; after construction nothing is allocated.
/// Source: Daniel and Weber 1997, section 3, after Terhardt 1979 and Aures 1985. The term 230/f of the upper slope is taken at
/// the component's own frequency, as printed; a widely copied program takes it at another one.
/// </remarks>
internal sealed class EarBands
{
    /// <summary>Number of bands; band i (counted from 0) is centred at (i + 1) / 2 Bark and 1 Bark wide.</summary>
    internal const int Count = 47;

    /// <summary>Modulation depth below which an envelope is nothing but rounding, so that no likeness to another is read from it.</summary>
    internal const double SteadyBelow = 1e-6;

    /// <summary>Ear transmission in dB over Bark, with the hump of the ear canal.</summary>
    internal static readonly BrokenLine TransmissionWithEarCanal = new(
        (0, 0), (10, 0), (12, 1.15), (13, 2.31), (14, 3.85), (15, 5.62), (16, 6.92), (16.5, 7.38), (17, 6.92), (18, 4.23),
        (18.5, 2.31), (19, 0), (20, -1.43), (21, -2.59), (21.5, -3.57), (22, -5.19), (22.5, -7.41), (23, -11.3), (23.5, -20),
        (24, -40));

    /// <summary>Ear transmission in dB over Bark, flat below 19 Bark.</summary>
    internal static readonly BrokenLine TransmissionWithoutEarCanal = new(
        (0, 0), (19, 0), (20, -1.43), (21, -2.59), (21.5, -3.57), (22, -5.19), (22.5, -7.41), (23, -11.3), (23.5, -20),
        (24, -40));

    private const double LowestHz = 20.0;
    private const double HighestHz = 20_000.0;
    private const double LowerSlopeDbPerBark = 27.0;
    private const double NepersPerDb = 0.11512925464970229;

    private static readonly BrokenLine ThresholdDb = new(
        (0, 130), (0.01, 70), (0.17, 60), (0.8, 30), (1, 25), (1.5, 20), (2, 15), (3.3, 10), (4, 8.1), (5, 6.3), (6, 5),
        (8, 3.5), (10, 2.5), (12, 1.7), (13.3, 0), (15, -2.5), (16, -4), (17, -3.7), (18, -1.5), (19, 1.4), (20, 3.8), (21, 5),
        (22, 7.5), (23, 15), (24, 48), (24.5, 60), (25, 130));

    private readonly FourierPlan _plan;
    private readonly double[] _window;
    private readonly double[] _gain;
    private readonly double[] _barkOfBin;
    private readonly double[] _thresholdOfBin;
    private readonly double[] _thresholdOfBand;
    private readonly double _binHz;
    private readonly int _lowestBin;
    private readonly int _highestBin;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly Component[] _components;
    private int _componentCount;

    /// <summary>Prepares frames of one length.</summary>
    /// <param name="sampleRateHz">Rate in Hz, &gt; 0.</param>
    /// <param name="fullScaleDbSpl">Sound pressure level of a sine of amplitude 1, in dB.</param>
    /// <param name="window">Window; its length is the frame's.</param>
    /// <param name="windowGain">What a spectrum line is divided by to read the amplitude of a steady sine: the window's sum, or its length when the model was fitted so.</param>
    /// <param name="transmissionDb">Ear transmission over Bark.</param>
    internal EarBands(
        int sampleRateHz, double fullScaleDbSpl, double[] window, double windowGain, BrokenLine transmissionDb)
    {
        int length = window.Length;
        _plan = new FourierPlan(length);
        _window = window;
        _re = new double[length];
        _im = new double[length];
        _binHz = (double)sampleRateHz / length;
        _lowestBin = (int)Math.Ceiling(LowestHz / _binHz);
        _highestBin = Math.Min((int)(HighestHz / _binHz), (length - 1) / 2);
        int bins = Math.Max(_highestBin + 1, 0);
        _barkOfBin = new double[bins];
        _gain = new double[bins];
        _thresholdOfBin = new double[bins];
        double unit = 2.0 / windowGain * Math.Exp(NepersPerDb * fullScaleDbSpl);
        for (int bin = 0; bin < bins; bin++)
        {
            double bark = CriticalBands.BarkByTable(bin * _binHz);
            _barkOfBin[bin] = bark;
            _gain[bin] = unit * Math.Exp(NepersPerDb * transmissionDb.At(bark));
            _thresholdOfBin[bin] = ThresholdDb.At(bark);
        }

        _thresholdOfBand = new double[Count + 2];
        for (int band = 0; band < _thresholdOfBand.Length; band++)
        {
            _thresholdOfBand[band] = ThresholdDb.At(0.5 * band);
        }

        _components = new Component[bins];
    }

    /// <summary>Frame length in samples.</summary>
    internal int Length => _window.Length;

    /// <summary>Takes a frame and keeps its audible components.</summary>
    /// <param name="frame"><see cref="Length"/> samples; those that are not finite count as 0.</param>
    internal void Take(ReadOnlySpan<float> frame)
    {
        for (int i = 0; i < _window.Length; i++)
        {
            _re[i] = float.IsFinite(frame[i]) ? frame[i] * _window[i] : 0.0;
            _im[i] = 0.0;
        }

        _plan.Forward(_re, _im);
        _componentCount = 0;
        for (int bin = _lowestBin; bin <= _highestBin; bin++)
        {
            double re = _re[bin] * _gain[bin];
            double im = _im[bin] * _gain[bin];
            double power = (re * re) + (im * im);
            double levelDb = 10.0 * Math.Log10(power);
            if (levelDb > _thresholdOfBin[bin])
            {
                double upperSlope = Math.Min(0.0, -24.0 - (230.0 / (bin * _binHz)) + (0.2 * levelDb));
                _components[_componentCount++] = new Component(bin, re, im, levelDb, 2.0 * _barkOfBin[bin], upperSlope);
            }
        }
    }

    /// <summary>Rectified signals of two neighbouring bands of the frame taken last.</summary>
    /// <param name="band">The first band, 0 to <see cref="Count"/> - 1; the second is the next one, or silence after the last.</param>
    /// <param name="first">Receives <see cref="Length"/> values.</param>
    /// <param name="second">Receives as many.</param>
    internal void Rectified(int band, Span<double> first, Span<double> second)
    {
        first.Clear();
        second.Clear();
        bool firstSounds = false;
        bool secondSounds = false;
        for (int i = 0; i < _componentCount; i++)
        {
            Component c = _components[i];
            double a = Weight(c, band + 1);
            double b = band + 1 < Count ? Weight(c, band + 2) : 0.0;
            firstSounds |= a > 0.0;
            secondSounds |= b > 0.0;
            double aRe = a * c.Re, aIm = a * c.Im, bRe = b * c.Re, bIm = b * c.Im;
            first[c.Bin] = aRe - bIm;
            second[c.Bin] = aIm + bRe;
            first[Length - c.Bin] = aRe + bIm;
            second[Length - c.Bin] = bRe - aIm;
        }

        // A band without any component stays exactly silent: rounding in the shared transform would look like its neighbour.
        _plan.Inverse(first, second);
        for (int i = 0; i < Length; i++)
        {
            first[i] = firstSounds ? Math.Abs(first[i]) : 0.0;
            second[i] = secondSounds ? Math.Abs(second[i]) : 0.0;
        }
    }

    /// <summary>Transforms a frame in place; see <see cref="FourierPlan.Forward"/>.</summary>
    /// <param name="re">Real parts, <see cref="Length"/> values.</param>
    /// <param name="im">Imaginary parts, as many.</param>
    internal void Transform(Span<double> re, Span<double> im) => _plan.Forward(re, im);

    /// <summary>Share of a component's amplitude that a band receives; <paramref name="number"/> counts from 1.</summary>
    private double Weight(in Component c, int number)
    {
        if (Math.Floor(c.TwiceBark) > number)
        {
            return Slope(c, -LowerSlopeDbPerBark * 0.5 * (c.TwiceBark - (number + 1)), number + 1);
        }

        if (Math.Ceiling(c.TwiceBark) < number)
        {
            return Slope(c, c.UpperSlopeDbPerBark * 0.5 * (number - 1 - c.TwiceBark), number - 1);
        }

        return 1.0;
    }

    private double Slope(in Component c, double dropDb, int number) =>
        c.LevelDb + dropDb > _thresholdOfBand[number] ? Math.Exp(NepersPerDb * dropDb) : 0.0;

    private readonly record struct Component(
        int Bin, double Re, double Im, double LevelDb, double TwiceBark, double UpperSlopeDbPerBark);
}
