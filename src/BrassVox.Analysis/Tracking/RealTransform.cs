using System.Numerics;
using System.Runtime.InteropServices;

namespace BrassVox.Analysis.Tracking;

/// <summary>Spectrum of a real block by a complex radix-2 transform of half its length, real and imaginary parts apart so that the inner loops are vectors.</summary>
/// <remarks>Source: J. W. Cooley and J. W. Tukey, 1965 (decimation in time); the split of one complex transform into a real one is textbook algebra.</remarks>
internal sealed class RealTransform
{
    private readonly int _half;
    private readonly int[] _reversed;
    private readonly float[][] _cos;
    private readonly float[][] _sin;
    private readonly float[] _splitCos;
    private readonly float[] _splitSin;
    private readonly float[] _re;
    private readonly float[] _im;

    /// <param name="size">Block length, a power of two, at least 32.</param>
    public RealTransform(int size)
    {
        Size = size;
        _half = size / 2;
        int bits = BitOperations.Log2((uint)_half);
        _reversed = new int[_half];
        for (int i = 1; i < _half; i++)
        {
            _reversed[i] = (_reversed[i >> 1] >> 1) | ((i & 1) << (bits - 1));
        }

        _cos = new float[bits][];
        _sin = new float[bits][];
        for (int stage = 0; stage < bits; stage++)
        {
            int span = 1 << stage;
            (_cos[stage], _sin[stage]) = Twiddles(span, Math.PI / span);
        }

        (_splitCos, _splitSin) = Twiddles(_half, Math.PI / _half);
        _re = new float[_half];
        _im = new float[_half];
    }

    public int Size { get; }

    /// <summary>Writes bins 0 to <paramref name="re"/>.Length - 1 (at most Size / 2) of sum x[n] exp(-2 pi i k n / Size).</summary>
    public void Forward(ReadOnlySpan<float> block, Span<float> re, Span<float> im)
    {
        for (int i = 0; i < _half; i++)
        {
            int from = 2 * _reversed[i];
            _re[i] = block[from];
            _im[i] = block[from + 1];
        }

        for (int stage = 0; stage < _cos.Length; stage++)
        {
            Stage(1 << stage, _cos[stage], _sin[stage]);
        }

        for (int k = 0; k < re.Length; k++)
        {
            int mirror = (_half - k) & (_half - 1);
            float evenRe = 0.5f * (_re[k] + _re[mirror]);
            float evenIm = 0.5f * (_im[k] - _im[mirror]);
            float oddRe = 0.5f * (_im[k] + _im[mirror]);
            float oddIm = -0.5f * (_re[k] - _re[mirror]);
            re[k] = evenRe + (_splitCos[k] * oddRe) + (_splitSin[k] * oddIm);
            im[k] = evenIm + (_splitCos[k] * oddIm) - (_splitSin[k] * oddRe);
        }
    }

    private void Stage(int span, float[] cos, float[] sin)
    {
        for (int start = 0; start < _half; start += 2 * span)
        {
            Span<float> topRe = _re.AsSpan(start, span);
            Span<float> topIm = _im.AsSpan(start, span);
            Span<float> lowRe = _re.AsSpan(start + span, span);
            Span<float> lowIm = _im.AsSpan(start + span, span);
            int done = 0;
            if (span >= Vector<float>.Count)
            {
                Span<Vector<float>> ar = MemoryMarshal.Cast<float, Vector<float>>(topRe);
                Span<Vector<float>> ai = MemoryMarshal.Cast<float, Vector<float>>(topIm);
                Span<Vector<float>> br = MemoryMarshal.Cast<float, Vector<float>>(lowRe);
                Span<Vector<float>> bi = MemoryMarshal.Cast<float, Vector<float>>(lowIm);
                ReadOnlySpan<Vector<float>> c = MemoryMarshal.Cast<float, Vector<float>>(cos);
                ReadOnlySpan<Vector<float>> s = MemoryMarshal.Cast<float, Vector<float>>(sin);
                for (int i = 0; i < ar.Length; i++)
                {
                    Vector<float> turnedRe = (br[i] * c[i]) + (bi[i] * s[i]);
                    Vector<float> turnedIm = (bi[i] * c[i]) - (br[i] * s[i]);
                    br[i] = ar[i] - turnedRe;
                    bi[i] = ai[i] - turnedIm;
                    ar[i] += turnedRe;
                    ai[i] += turnedIm;
                }

                done = span;
            }

            for (int i = done; i < span; i++)
            {
                float turnedRe = (lowRe[i] * cos[i]) + (lowIm[i] * sin[i]);
                float turnedIm = (lowIm[i] * cos[i]) - (lowRe[i] * sin[i]);
                lowRe[i] = topRe[i] - turnedRe;
                lowIm[i] = topIm[i] - turnedIm;
                topRe[i] += turnedRe;
                topIm[i] += turnedIm;
            }
        }
    }

    private static (float[] Cos, float[] Sin) Twiddles(int count, double step)
    {
        float[] cos = new float[count];
        float[] sin = new float[count];
        for (int i = 0; i < count; i++)
        {
            cos[i] = (float)Math.Cos(step * i);
            sin[i] = (float)Math.Sin(step * i);
        }

        return (cos, sin);
    }
}
