using BrassVox.Analysis.Transforms;

namespace BrassVox.Analysis.Bleed;

/// <summary>Power and cross spectra of a reference and a recording, summed over pieces (Hann window).</summary>
internal sealed class CrossSpectrum
{
    private readonly FourierPlan _plan;
    private readonly double[] _window;
    private readonly double[] _re;
    private readonly double[] _im;
    private readonly double[] _reference;
    private readonly double[] _heard;
    private readonly double[] _crossRe;
    private readonly double[] _crossIm;

    /// <summary>Prepares the sums.</summary>
    /// <param name="plan">Transform of one piece.</param>
    /// <param name="bins">Number of bins kept.</param>
    internal CrossSpectrum(FourierPlan plan, int bins)
    {
        _plan = plan;
        _window = new double[plan.Length];
        for (int i = 0; i < _window.Length; i++)
        {
            _window[i] = 0.5 - (0.5 * Math.Cos(2.0 * Math.PI * (i + 0.5) / _window.Length));
        }

        _re = new double[plan.Length];
        _im = new double[plan.Length];
        _reference = new double[bins];
        _heard = new double[bins];
        _crossRe = new double[bins];
        _crossIm = new double[bins];
    }

    /// <summary>Power of the reference, bin by bin.</summary>
    internal ReadOnlySpan<double> ReferencePower => _reference;

    /// <summary>Power of the recording over all bins of the transform.</summary>
    internal double HeardTotal { get; private set; }

    /// <summary>Adds one piece; samples that are not finite count as 0.</summary>
    /// <param name="reference">Piece of the reference.</param>
    /// <param name="heard">The same piece of the recording.</param>
    internal void Add(ReadOnlySpan<float> reference, ReadOnlySpan<float> heard)
    {
        // One transform for both: reference as the real part, recording as the imaginary part. Of a silent one it leaves the rounding of the
        // other, which would look like it.
        double sent = 0.0;
        double heardSquares = 0.0;
        for (int i = 0; i < _window.Length; i++)
        {
            _re[i] = float.IsFinite(reference[i]) ? _window[i] * reference[i] : 0.0;
            _im[i] = float.IsFinite(heard[i]) ? _window[i] * heard[i] : 0.0;
            sent += _re[i] * _re[i];
            heardSquares += _im[i] * _im[i];
        }

        HeardTotal += 0.5 * _plan.Length * heardSquares;
        double halfSent = sent > 0.0 ? 0.5 : 0.0;
        double halfHeard = heardSquares > 0.0 ? 0.5 : 0.0;

        _plan.Forward(_re, _im);
        for (int k = 0; k < _reference.Length; k++)
        {
            int mirror = (_plan.Length - k) % _plan.Length;
            double xRe = halfSent * (_re[k] + _re[mirror]), xIm = halfSent * (_im[k] - _im[mirror]);
            double yRe = halfHeard * (_im[k] + _im[mirror]), yIm = halfHeard * (_re[mirror] - _re[k]);
            _reference[k] += (xRe * xRe) + (xIm * xIm);
            _heard[k] += (yRe * yRe) + (yIm * yIm);
            _crossRe[k] += (xRe * yRe) + (xIm * yIm);
            _crossIm[k] += (xRe * yIm) - (xIm * yRe);
        }
    }

    /// <summary>Magnitude-squared coherence of a bin, 0 to 1; 0 when either is silent there.</summary>
    /// <param name="bin">The bin.</param>
    internal double Coherence(int bin)
    {
        double scale = _reference[bin] * _heard[bin];
        return scale > 0.0 ? CrossPower(bin) / scale : 0.0;
    }

    /// <summary>Power of the recording in a bin that follows the reference.</summary>
    /// <param name="bin">The bin.</param>
    internal double FollowedPower(int bin) => _reference[bin] > 0.0 ? CrossPower(bin) / _reference[bin] : 0.0;

    private double CrossPower(int bin) => (_crossRe[bin] * _crossRe[bin]) + (_crossIm[bin] * _crossIm[bin]);
}
