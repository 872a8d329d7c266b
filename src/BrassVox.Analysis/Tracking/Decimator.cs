using System.Numerics;
using System.Runtime.InteropServices;

namespace BrassVox.Analysis.Tracking;

/// <summary>Brings any stream down to a rate of 5.5 to 11 kHz by a whole factor, through a linear-phase low-pass.</summary>
/// <remarks>
/// Source: Kaiser-windowed sinc (J. F. Kaiser, 1974; formulas from memory), 80 dB: length 72 / (2.285 * 2 pi * transition / rate).
/// Only what would fold onto <see cref="BandTopHz"/> and below is stopped; the band above is never read.
/// </remarks>
internal sealed class Decimator
{
    /// <summary>Highest frequency passed flat, in Hz.</summary>
    public const double BandTopHz = 2200.0;

    private const int LowestRateHz = 5500;
    private const double StopbandDb = 80.0;

    private readonly float[] _taps;
    private readonly float[] _line;
    private int _filled;

    public Decimator(int sampleRateHz)
    {
        Factor = Math.Max(1, sampleRateHz / LowestRateHz);
        RateHz = (double)sampleRateHz / Factor;
        _taps = Factor == 1 ? [1f] : Design(sampleRateHz, RateHz);
        _line = new float[_taps.Length + 4096];
    }

    public int Factor { get; }

    public double RateHz { get; }

    public int TapCount => _taps.Length;

    /// <summary>Takes samples (what is not finite counts as 0) and appends decimated ones; output n covers input n * Factor onwards.</summary>
    public void Push(ReadOnlySpan<float> input, SampleHistory output)
    {
        while (input.Length > 0)
        {
            int take = Math.Min(input.Length, _line.Length - _filled);
            for (int i = 0; i < take; i++)
            {
                float value = input[i];
                _line[_filled + i] = float.IsFinite(value) ? value : 0f;
            }

            input = input[take..];
            _filled += take;
            int start = 0;
            while (start + _taps.Length <= _filled)
            {
                output.Add(Dot(_line.AsSpan(start, _taps.Length), _taps));
                start += Factor;
            }

            int keep = Math.Max(0, _filled - start);
            _line.AsSpan(_filled - keep, keep).CopyTo(_line);
            _filled = keep;
        }
    }

    public void Reset() => _filled = 0;

    private static float Dot(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        ReadOnlySpan<Vector<float>> va = MemoryMarshal.Cast<float, Vector<float>>(a);
        ReadOnlySpan<Vector<float>> vb = MemoryMarshal.Cast<float, Vector<float>>(b);
        Vector<float> sum = Vector<float>.Zero;
        for (int i = 0; i < va.Length; i++)
        {
            sum += va[i] * vb[i];
        }

        float total = Vector.Sum(sum);
        for (int i = va.Length * Vector<float>.Count; i < a.Length; i++)
        {
            total += a[i] * b[i];
        }

        return total;
    }

    private static float[] Design(double rateHz, double outputRateHz)
    {
        double transitionHz = outputRateHz - (2.0 * BandTopHz);
        double cutHz = 0.5 * outputRateHz;
        int length = 1 + (2 * (int)Math.Ceiling((StopbandDb - 8.0) / (2.285 * 2.0 * Math.PI * transitionHz / rateHz) / 2.0));
        double beta = 0.1102 * (StopbandDb - 8.7);
        float[] taps = new float[length];
        double middle = 0.5 * (length - 1);
        double sum = 0.0;
        for (int i = 0; i < length; i++)
        {
            double x = i - middle;
            double angle = 2.0 * Math.PI * cutHz / rateHz * x;
            double sinc = x == 0.0 ? 1.0 : Math.Sin(angle) / angle;
            double edge = x / middle;
            double tap = sinc * Bessel0(beta * Math.Sqrt(Math.Max(0.0, 1.0 - (edge * edge))));
            taps[i] = (float)tap;
            sum += tap;
        }

        for (int i = 0; i < length; i++)
        {
            taps[i] = (float)(taps[i] / sum);
        }

        return taps;
    }

    private static double Bessel0(double x)
    {
        double term = 1.0;
        double sum = 1.0;
        for (int k = 1; term > 1e-12 * sum; k++)
        {
            double factor = 0.5 * x / k;
            term *= factor * factor;
            sum += term;
        }

        return sum;
    }
}
