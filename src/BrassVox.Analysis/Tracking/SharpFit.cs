using System.Numerics;
using System.Runtime.InteropServices;
using BrassVox.Theory;

namespace BrassVox.Analysis.Tracking;

/// <summary>Last step of a fit: both pitches and all amplitudes at once, by Gauss and Newton on the samples themselves.</summary>
/// <remarks>
/// In white noise least squares on evenly weighted samples reach the bound of Cramer and Rao (S. M. Kay, Fundamentals of Statistical
/// Signal Processing, 1993, from memory); the Hann window and the levelling of the search stay 2 to 4 times above it. About the middle of the window
/// cosines are even and sines odd, so the system falls into two of half the length and half the unknowns.
/// </remarks>
internal sealed partial class SharpFit
{
    private const int MostLines = 64;
    // Beside the lines: the sound and the slopes by both pitches.
    private const int Extra = 3;
    private const int Stride = MostLines + Extra;

    // Lines this far under the loudest say nothing about the pitch: 30 dB.
    private const double LeastAmplitude = 0.032;

    private const double Ridge = 1e-6;

    // What the search has found is not moved further than this in a window of 160 ms, in a shorter one as much further as the
    // bound grows. Beyond it the tone is unsteady, and the search, whose window is narrower, is nearer to the truth.
    private const double MostCents = 2.5;
    private const double MostCentsSeconds = 0.16;

    // Where strong lines of both tones lie within 0.4 of a cycle per window (near the just fifth) the levelled search is drawn to the just
    // interval: by 8 cents on rendered fifths, by 14 and more where they are coupled by 0.8.
    private const double MostWideCents = 25;
    private const double MeetingUnits = 0.4;

    private const int MostRounds = 4;

    // After a step of so little the next would be a hundredth of it.
    private const double LastStepCents = 2.0;

    // Weights are this power of a half cosine. Even weights come nearest to the bound, but the partials of a recorded tone wander
    // and leak: on the recorded mixes 6 frames in 1,000 fewer are right than with this, and with a Hann window's weights as many.
    private const double Taper = 0.9;

    private readonly int _half;
    private readonly double _rateHz;
    private readonly double _mostCents;
    private readonly float[] _weight;
    private readonly float[] _even;
    private readonly float[] _odd;
    private readonly float[] _basisEven;
    private readonly float[] _basisOdd;
    private readonly double[] _factorEven = new double[Stride * Stride];
    private readonly double[] _factorOdd = new double[Stride * Stride];
    private readonly double[] _hz = new double[MostLines];
    private readonly int[] _played = new int[MostLines];
    private readonly int[] _sung = new int[MostLines];
    private readonly double[] _cos = new double[MostLines];
    private readonly double[] _sin = new double[MostLines];
    private int _count;

    /// <param name="length">Samples in a window, odd.</param>
    /// <param name="rateHz">Rate in Hz.</param>
    public SharpFit(int length, double rateHz)
    {
        // Padded to whole vectors; the padding stays zero.
        int lanes = Vector<float>.Count;
        _half = ((length / 2) + lanes) / lanes * lanes;
        _rateHz = rateHz;
        _mostCents = MostCents * Math.Pow(MostCentsSeconds * rateHz / length, 1.5);
        _weight = new float[_half];
        _even = new float[_half];
        _odd = new float[_half];
        _restEven = new float[_half];
        _restOdd = new float[_half];
        _basisEven = new float[_half * (MostLines + 2)];
        _basisOdd = new float[_half * (MostLines + 2)];
        for (int i = 0; i <= length / 2; i++)
        {
            double w = Math.Pow(Math.Cos(Math.PI * i / length), 0.5 * Taper);
            _weight[i] = (float)(i == 0 ? w * Math.Sqrt(0.5) : w);
        }
    }

    /// <summary>The pair moved to where the samples want it; as it was when they do not decide.</summary>
    /// <param name="window">The samples.</param>
    /// <param name="fit">A pair within a few cents; one tone where S is 0 Hz.</param>
    /// <param name="lines">Its lines with their amplitudes, the levelling taken out.</param>
    /// <param name="isHeld">True where both tones are held: only then are crowded lines left out.</param>
    public PairFit Sharpen(ReadOnlySpan<float> window, PairFit fit, LineFit lines, bool isHeld = false)
    {
        Choose(lines);
        if (_count == 0)
        {
            return fit;
        }

        Fold(window);
        double unitHz = _rateHz / window.Length;
        bool isCrowded = isHeld && fit.SungHz > 0.0 && IsCrowded(fit, unitHz);
        double mostSung = Meets(MeetingUnits * unitHz) ? Math.Max(MostWideCents, _mostCents) : _mostCents;
        double mostPlayed = mostSung;
        double p = fit.PlayedHz;
        double s = fit.SungHz;
        for (int round = 0; round < MostRounds; round++)
        {
            for (int i = 0; i < _count; i++)
            {
                _hz[i] = (_played[i] * p) + (_sung[i] * s);
            }

            if (Step(isAlone: fit.SungHz <= 0.0, isCrowded ? unitHz : 0.0) is not { } step)
            {
                return fit;
            }

            bool isPartly = _isClean.AsSpan(0, _count).Contains(false);
            mostPlayed = isPartly ? Math.Max(MostWideCents, _mostCents) : mostPlayed;
            p = Cents.Above(p, step.Played);
            s = Cents.Above(s, step.Sung);
            bool isFar = fit.SungHz > 0.0 && Math.Abs(Cents.Between(fit.SungHz, s)) > mostSung;
            if (Math.Abs(Cents.Between(fit.PlayedHz, p)) > mostPlayed || (isFar && !isPartly))
            {
                return fit;
            }

            // A voice that swings is nearer to where the search put it; that takes nothing from a P that is read from its own lines.
            s = isFar ? fit.SungHz : s;

            if (Math.Max(Math.Abs(step.Played), Math.Abs(step.Sung)) < LastStepCents)
            {
                break;
            }
        }

        return fit with { PlayedHz = p, SungHz = s };
    }

    private void Choose(LineFit lines)
    {
        double most = 0.0;
        for (int i = 0; i < lines.Count; i++)
        {
            most = Math.Max(most, Square(lines, i));
        }

        _count = 0;
        for (int i = 0; i < lines.Count && _count < MostLines; i++)
        {
            if (Square(lines, i) > LeastAmplitude * LeastAmplitude * most)
            {
                _hz[_count] = lines.FrequencyHz[i];
                _played[_count] = lines.PlayedNumber[i];
                _sung[_count++] = lines.SungNumber[i];
            }
        }
    }

    private static double Square(LineFit lines, int i) => (lines.Re[i] * lines.Re[i]) + (lines.Im[i] * lines.Im[i]);

    private void Fold(ReadOnlySpan<float> window)
    {
        int middle = window.Length / 2;
        for (int i = 0; i <= middle; i++)
        {
            _even[i] = _weight[i] * (window[middle + i] + window[middle - i]);
            _odd[i] = _weight[i] * (window[middle + i] - window[middle - i]);
        }
    }

    // One step, in cents; null when the lines do not decide it.
    private (double Played, double Sung)? Step(bool isAlone, double crowdedUnitHz)
    {
        for (int i = 0; i < _count; i++)
        {
            Turn(_hz[i], Row(_basisEven, i), Row(_basisOdd, i));
        }

        // Amplitudes first: the slopes by the pitches need them.
        Amplitudes(_factorEven, _basisEven, _even, _cos);
        Amplitudes(_factorOdd, _basisOdd, _odd, _sin);
        _isClean.AsSpan(0, _count).Fill(true);
        if (crowdedUnitHz > 0.0)
        {
            Weigh(crowdedUnitHz);
        }

        Slopes();
        Span<double> even = stackalloc double[5];
        Span<double> odd = stackalloc double[5];
        Reduce(_factorEven, _basisEven, _even, even);
        Reduce(_factorOdd, _basisOdd, _odd, odd);
        double pp = even[0] + odd[0];
        double ps = even[1] + odd[1];
        double ss = even[2] + odd[2];
        double gp = even[3] + odd[3];
        double gs = even[4] + odd[4];
        if (isAlone)
        {
            return pp > 0.0 ? (gp / pp, 0.0) : null;
        }

        double determinant = (pp * ss) - (ps * ps);
        if (!(pp > 0.0 && ss > 0.0 && determinant > 1e-3 * pp * ss))
        {
            return null;
        }

        return (((ss * gp) - (ps * gs)) / determinant, ((pp * gs) - (ps * gp)) / determinant);
    }

    private Span<float> Row(float[] basis, int i) => basis.AsSpan(i * _half, _half);

    // As many pointers as a vector has lanes, each turned by as many samples at a time.
    private void Turn(double hz, Span<float> cosines, Span<float> sines)
    {
        double step = 2.0 * Math.PI * hz / _rateHz;
        int lanes = Vector<float>.Count;
        Span<float> firstCos = stackalloc float[lanes];
        Span<float> firstSin = stackalloc float[lanes];
        (double turnSin, double turnCos) = Math.SinCos(step);
        double c0 = 1.0;
        double s0 = 0.0;
        for (int i = 0; i < lanes; i++)
        {
            firstCos[i] = (float)c0;
            firstSin[i] = (float)s0;
            (c0, s0) = ((c0 * turnCos) - (s0 * turnSin), (c0 * turnSin) + (s0 * turnCos));
        }

        Vector<float> c = new(firstCos);
        Vector<float> s = new(firstSin);
        Vector<float> byCos = new((float)c0);
        Vector<float> bySin = new((float)s0);
        ReadOnlySpan<Vector<float>> weight = MemoryMarshal.Cast<float, Vector<float>>(_weight.AsSpan());
        Span<Vector<float>> toCos = MemoryMarshal.Cast<float, Vector<float>>(cosines);
        Span<Vector<float>> toSin = MemoryMarshal.Cast<float, Vector<float>>(sines);
        for (int i = 0; i < weight.Length; i++)
        {
            toCos[i] = weight[i] * c;
            toSin[i] = weight[i] * s;
            (c, s) = ((c * byCos) - (s * bySin), (c * bySin) + (s * byCos));
        }
    }

    // Factors the lines' products (Cholesky, lower triangle, by rows), the sound as a row below them, and solves.
    private void Amplitudes(double[] factor, float[] basis, float[] sound, double[] amplitudes)
    {
        int n = _count;
        for (int i = 0; i < n; i++)
        {
            ReadOnlySpan<float> line = Row(basis, i);
            Span<double> row = factor.AsSpan(i * Stride, i + 1);
            for (int j = 0; j < i; j++)
            {
                row[j] = Dot(line, Row(basis, j));
            }

            Forward(factor, row, i);
            double square = Dot(line, line) * (1.0 + Ridge);
            row[i] = Math.Sqrt(Math.Max(square - Dot(row[..i], row[..i]), Ridge * square));
        }

        Span<double> right = Products(factor, basis, sound, n);
        for (int i = n - 1; i >= 0; i--)
        {
            double sum = right[i];
            for (int k = i + 1; k < n; k++)
            {
                sum -= factor[(k * Stride) + i] * amplitudes[k];
            }

            amplitudes[i] = sum / factor[(i * Stride) + i];
        }
    }

    // Products of a vector with all lines, solved forward.
    private Span<double> Products(double[] factor, float[] basis, ReadOnlySpan<float> vector, int at)
    {
        Span<double> row = factor.AsSpan(at * Stride, _count);
        for (int j = 0; j < _count; j++)
        {
            row[j] = Dot(Row(basis, j), vector);
        }

        Forward(factor, row, _count);
        return row;
    }

    private static void Forward(double[] factor, Span<double> row, int count)
    {
        for (int j = 0; j < count; j++)
        {
            ReadOnlySpan<double> other = factor.AsSpan(j * Stride, Stride);
            row[j] = (row[j] - Dot(row[..j], other[..j])) / other[j];
        }
    }

    // Derivatives of the model by each pitch in cents: even part t sin, odd part t cos.
    private void Slopes()
    {
        Span<float> playedEven = Row(_basisEven, _count);
        Span<float> sungEven = Row(_basisEven, _count + 1);
        Span<float> playedOdd = Row(_basisOdd, _count);
        Span<float> sungOdd = Row(_basisOdd, _count + 1);
        playedEven.Clear();
        sungEven.Clear();
        playedOdd.Clear();
        sungOdd.Clear();
        double perCent = Math.Log(2.0) / 1200.0 * 2.0 * Math.PI / _rateHz;
        for (int i = 0; i < _count; i++)
        {
            if (!_isClean[i])
            {
                continue;
            }

            float bySin = (float)(-_cos[i] * _hz[i] * perCent);
            float byCos = (float)(_sin[i] * _hz[i] * perCent);
            AddScaled(Row(_basisOdd, i), bySin, _played[i] > 0 ? playedEven : sungEven);
            AddScaled(Row(_basisEven, i), byCos, _played[i] > 0 ? playedOdd : sungOdd);
        }

        for (int n = 0; n < _half; n++)
        {
            playedEven[n] *= n;
            sungEven[n] *= n;
            playedOdd[n] *= n;
            sungOdd[n] *= n;
        }
    }

    // What is left of the slopes' products with one another and with the sound when all amplitudes may give way.
    private void Reduce(double[] factor, float[] basis, float[] sound, Span<double> products)
    {
        ReadOnlySpan<float> played = Row(basis, _count);
        ReadOnlySpan<float> sung = Row(basis, _count + 1);
        ReadOnlySpan<double> x = factor.AsSpan(_count * Stride, _count);
        ReadOnlySpan<double> a = Products(factor, basis, played, _count + 1);
        ReadOnlySpan<double> b = Products(factor, basis, sung, _count + 2);
        products[0] = Dot(played, played) - Dot(a, a);
        products[1] = Dot(played, sung) - Dot(a, b);
        products[2] = Dot(sung, sung) - Dot(b, b);
        products[3] = Dot(played, sound) - Dot(a, x);
        products[4] = Dot(sung, sound) - Dot(b, x);
    }

    private static void AddScaled(ReadOnlySpan<float> from, float scale, Span<float> to)
    {
        ReadOnlySpan<Vector<float>> source = MemoryMarshal.Cast<float, Vector<float>>(from);
        Span<Vector<float>> target = MemoryMarshal.Cast<float, Vector<float>>(to);
        for (int i = 0; i < source.Length; i++)
        {
            target[i] += scale * source[i];
        }
    }

    private static double Dot(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        ReadOnlySpan<Vector<float>> va = MemoryMarshal.Cast<float, Vector<float>>(a);
        ReadOnlySpan<Vector<float>> vb = MemoryMarshal.Cast<float, Vector<float>>(b);
        Vector<float> first = Vector<float>.Zero;
        Vector<float> second = Vector<float>.Zero;
        int i = 0;
        for (; i + 1 < va.Length; i += 2)
        {
            first += va[i] * vb[i];
            second += va[i + 1] * vb[i + 1];
        }

        if (i < va.Length)
        {
            first += va[i] * vb[i];
        }

        return Vector.Sum(first + second);
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        ReadOnlySpan<Vector<double>> va = MemoryMarshal.Cast<double, Vector<double>>(a);
        ReadOnlySpan<Vector<double>> vb = MemoryMarshal.Cast<double, Vector<double>>(b);
        Vector<double> sum = Vector<double>.Zero;
        for (int i = 0; i < va.Length; i++)
        {
            sum += va[i] * vb[i];
        }

        double total = Vector.Sum(sum);
        for (int i = va.Length * Vector<double>.Count; i < a.Length; i++)
        {
            total += a[i] * b[i];
        }

        return total;
    }
}
