using System.Numerics;
using System.Runtime.InteropServices;

namespace BrassVox.Analysis.Transforms;

/// <summary>Discrete Fourier transform of one length, real and imaginary parts in separate spans. Allocates only when made.</summary>
/// <remarks>
/// Any length works; lengths made of the factors 2, 3 and 5 are fast. One plan serves one thread.
/// Source: self-sorting mixed-radix transform (Stockham, in Cochran et al. 1967).
/// </remarks>
internal sealed class FourierPlan
{
    private readonly double[] _cos;
    private readonly double[] _sin;
    private readonly int[] _radices;
    private readonly double[] _workRe;
    private readonly double[] _workIm;

    /// <summary>Prepares a length.</summary>
    /// <param name="length">Number of points, at least 1.</param>
    internal FourierPlan(int length)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(length, 1);
        Length = length;
        _cos = new double[length];
        _sin = new double[length];
        for (int i = 0; i < length; i++)
        {
            (_sin[i], _cos[i]) = Math.SinCos(-2.0 * Math.PI * i / length);
        }

        _radices = Factors(length);
        _workRe = new double[length];
        _workIm = new double[length];
    }

    /// <summary>Number of points.</summary>
    internal int Length { get; }

    /// <summary>The least length of factors 2, 3 and 5 that is no shorter than asked.</summary>
    /// <param name="atLeast">Shortest length wanted, at least 1.</param>
    internal static int FastLength(int atLeast)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(atLeast, 1);
        int length = atLeast;
        while (Factors(length).DefaultIfEmpty(1).Max() > 5)
        {
            length++;
        }

        return length;
    }

    /// <summary>X_k = sum of x_n exp(-2 pi i k n / N), in place.</summary>
    /// <param name="re">Real parts, <see cref="Length"/> values.</param>
    /// <param name="im">Imaginary parts, as many.</param>
    internal void Forward(Span<double> re, Span<double> im)
    {
        if (re.Length != Length || im.Length != Length)
        {
            throw new ArgumentException($"The transform has {Length} points; {re.Length} and {im.Length} were given.");
        }

        Span<double> fromRe = re;
        Span<double> fromIm = im;
        Span<double> toRe = _workRe;
        Span<double> toIm = _workIm;
        int size = Length;
        int stride = 1;
        foreach (int radix in _radices)
        {
            if (radix == 4)
            {
                StageOf4(size, stride, fromRe, fromIm, toRe, toIm);
            }
            else
            {
                StageOfAny(radix, size, stride, fromRe, fromIm, toRe, toIm);
            }

            Span<double> swapRe = fromRe;
            Span<double> swapIm = fromIm;
            fromRe = toRe;
            fromIm = toIm;
            toRe = swapRe;
            toIm = swapIm;
            size /= radix;
            stride *= radix;
        }

        if (_radices.Length % 2 == 1)
        {
            fromRe.CopyTo(re);
            fromIm.CopyTo(im);
        }
    }

    /// <summary>x_n = 1/N sum of X_k exp(+2 pi i k n / N), in place.</summary>
    /// <param name="re">Real parts, <see cref="Length"/> values.</param>
    /// <param name="im">Imaginary parts, as many.</param>
    internal void Inverse(Span<double> re, Span<double> im)
    {
        Forward(im, re);
        double scale = 1.0 / Length;
        for (int i = 0; i < re.Length; i++)
        {
            re[i] *= scale;
            im[i] *= scale;
        }
    }

    private static int[] Factors(int length)
    {
        List<int> factors = [];
        int rest = length;
        while (rest % 4 == 0)
        {
            factors.Add(4);
            rest /= 4;
        }

        for (int factor = 2; rest > 1; factor++)
        {
            if (factor * factor > rest)
            {
                factor = rest;
            }

            while (rest % factor == 0)
            {
                factors.Add(factor);
                rest /= factor;
            }
        }

        return [.. factors];
    }

    private void StageOf4(int size, int stride, Span<double> fromRe, Span<double> fromIm, Span<double> toRe, Span<double> toIm)
    {
        int quarter = size / 4;
        int turn = Length / size;
        int step = stride * quarter;
        for (int p = 0; p < quarter; p++)
        {
            int turns = p * turn;
            double c1 = _cos[turns], s1 = _sin[turns];
            double c2 = _cos[2 * turns], s2 = _sin[2 * turns];
            double c3 = _cos[3 * turns], s3 = _sin[3 * turns];
            int from = stride * p;
            int to = 4 * stride * p;
            int q = 0;
            for (; q <= stride - Vector<double>.Count; q += Vector<double>.Count)
            {
                Vector<double> aRe = Read(fromRe, from + q), aIm = Read(fromIm, from + q);
                Vector<double> bRe = Read(fromRe, from + q + step), bIm = Read(fromIm, from + q + step);
                Vector<double> cRe = Read(fromRe, from + q + (2 * step)), cIm = Read(fromIm, from + q + (2 * step));
                Vector<double> dRe = Read(fromRe, from + q + (3 * step)), dIm = Read(fromIm, from + q + (3 * step));
                Vector<double> acRe = aRe + cRe, acIm = aIm + cIm, amRe = aRe - cRe, amIm = aIm - cIm;
                Vector<double> bdRe = bRe + dRe, bdIm = bIm + dIm, bmRe = bRe - dRe, bmIm = bIm - dIm;
                Write(toRe, to + q, acRe + bdRe);
                Write(toIm, to + q, acIm + bdIm);
                Turn(toRe, toIm, to + q + stride, amRe + bmIm, amIm - bmRe, c1, s1);
                Turn(toRe, toIm, to + q + (2 * stride), acRe - bdRe, acIm - bdIm, c2, s2);
                Turn(toRe, toIm, to + q + (3 * stride), amRe - bmIm, amIm + bmRe, c3, s3);
            }

            for (; q < stride; q++)
            {
                int a = from + q, b = a + step, c = b + step, d = c + step;
                double acRe = fromRe[a] + fromRe[c], acIm = fromIm[a] + fromIm[c];
                double amRe = fromRe[a] - fromRe[c], amIm = fromIm[a] - fromIm[c];
                double bdRe = fromRe[b] + fromRe[d], bdIm = fromIm[b] + fromIm[d];
                double bmRe = fromRe[b] - fromRe[d], bmIm = fromIm[b] - fromIm[d];
                int at = to + q;
                toRe[at] = acRe + bdRe;
                toIm[at] = acIm + bdIm;
                Turn(toRe, toIm, at + stride, amRe + bmIm, amIm - bmRe, c1, s1);
                Turn(toRe, toIm, at + (2 * stride), acRe - bdRe, acIm - bdIm, c2, s2);
                Turn(toRe, toIm, at + (3 * stride), amRe - bmIm, amIm + bmRe, c3, s3);
            }
        }
    }

    private void StageOfAny(
        int radix, int size, int stride, Span<double> fromRe, Span<double> fromIm, Span<double> toRe, Span<double> toIm)
    {
        int part = size / radix;
        int turn = Length / size;
        for (int p = 0; p < part; p++)
        {
            for (int j = 0; j < radix; j++)
            {
                Span<double> rowRe = toRe.Slice(stride * ((radix * p) + j), stride);
                Span<double> rowIm = toIm.Slice(stride * ((radix * p) + j), stride);
                rowRe.Clear();
                rowIm.Clear();
                for (int k = 0; k < radix; k++)
                {
                    int angle = ((j * k % radix * (Length / radix)) + (p * j * turn)) % Length;
                    int from = stride * (p + (part * k));
                    AddTurned(rowRe, rowIm, fromRe.Slice(from, stride), fromIm.Slice(from, stride), _cos[angle], _sin[angle]);
                }
            }
        }
    }

    private static void AddTurned(
        Span<double> toRe, Span<double> toIm, Span<double> re, Span<double> im, double c, double s)
    {
        int q = 0;
        for (; q <= toRe.Length - Vector<double>.Count; q += Vector<double>.Count)
        {
            Vector<double> xRe = Read(re, q), xIm = Read(im, q);
            Write(toRe, q, Read(toRe, q) + (xRe * c) - (xIm * s));
            Write(toIm, q, Read(toIm, q) + (xRe * s) + (xIm * c));
        }

        for (; q < toRe.Length; q++)
        {
            toRe[q] += (re[q] * c) - (im[q] * s);
            toIm[q] += (re[q] * s) + (im[q] * c);
        }
    }

    private static void Turn(Span<double> toRe, Span<double> toIm, int at, double re, double im, double c, double s)
    {
        toRe[at] = (re * c) - (im * s);
        toIm[at] = (re * s) + (im * c);
    }

    private static void Turn(
        Span<double> toRe, Span<double> toIm, int at, Vector<double> re, Vector<double> im, double c, double s)
    {
        Write(toRe, at, (re * c) - (im * s));
        Write(toIm, at, (re * s) + (im * c));
    }

    private static Vector<double> Read(Span<double> values, int at) =>
        MemoryMarshal.Read<Vector<double>>(MemoryMarshal.AsBytes(values[at..]));

    private static void Write(Span<double> values, int at, Vector<double> value) =>
        MemoryMarshal.Write(MemoryMarshal.AsBytes(values[at..]), in value);
}
