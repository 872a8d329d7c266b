using System.Numerics;

namespace BrassVox.Analysis.Loudness;

/// <summary>The peak that a converter will make between the samples, for one channel.</summary>
/// <remarks>
/// One thread; after construction nothing is allocated. The stream is raised to four times its rate (to a rate of at least
/// 192 kHz: twice from 96 kHz on) by a windowed sinc.
/// Source: ITU-R BS.1770-4, annex 2; the filter is our own (Kaiser window, 24 taps a phase).
/// </remarks>
public sealed class TruePeakMeter
{
    private const int Taps = 24;
    private const double KaiserBeta = 7.0;

    private readonly double[][] _phases;
    // Twice over, so that the newest samples always lie in a row, the oldest first.
    private readonly double[] _recent = new double[2 * Taps];
    private int _at;

    /// <summary>Prepares a rate.</summary>
    /// <param name="sampleRateHz">Rate in Hz, 8000 to 384 000.</param>
    /// <exception cref="ArgumentOutOfRangeException">The rate is outside its range.</exception>
    public TruePeakMeter(int sampleRateHz)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sampleRateHz, 384_000);
        int factor = sampleRateHz >= 176_400 ? 1 : sampleRateHz >= 88_200 ? 2 : 4;
        _phases = new double[factor][];
        for (int p = 0; p < factor; p++)
        {
            _phases[p] = Phase((double)p / factor);
        }
    }

    /// <summary>Largest magnitude so far, full scale 1.</summary>
    public double Peak { get; private set; }

    /// <summary>Largest magnitude so far in dBTP; negative infinity in silence.</summary>
    public double PeakDbtp => 20.0 * Math.Log10(Peak);

    /// <summary>Takes samples of one channel; those that are not finite count as 0.</summary>
    /// <param name="samples">Samples, full scale 1.</param>
    public void Push(ReadOnlySpan<float> samples)
    {
        foreach (float sample in samples)
        {
            _recent[_at] = _recent[_at + Taps] = float.IsFinite(sample) ? sample : 0.0;
            _at = (_at + 1) % Taps;
            ReadOnlySpan<double> row = _recent.AsSpan(_at, Taps);
            foreach (double[] phase in _phases)
            {
                Peak = Math.Max(Peak, Math.Abs(Dot(phase, row)));
            }
        }
    }

    /// <summary>Forgets the past.</summary>
    public void Reset()
    {
        Array.Clear(_recent);
        Peak = 0.0;
    }

    private static double Dot(ReadOnlySpan<double> weights, ReadOnlySpan<double> row)
    {
        Vector<double> sum = Vector<double>.Zero;
        int i = 0;
        for (; i + Vector<double>.Count <= Taps; i += Vector<double>.Count)
        {
            sum += new Vector<double>(weights[i..]) * new Vector<double>(row[i..]);
        }

        double total = Vector.Sum(sum);
        for (; i < Taps; i++)
        {
            total += weights[i] * row[i];
        }

        return total;
    }

    /// <summary>Weights that read the stream a fraction of a sample after tap 11.</summary>
    private static double[] Phase(double fraction)
    {
        double[] weights = new double[Taps];
        for (int i = 0; i < Taps; i++)
        {
            double x = i - (Taps / 2) + 1 - fraction;
            double sinc = Math.Abs(x) < 1e-12 ? 1.0 : Math.Sin(Math.PI * x) / (Math.PI * x);
            double place = x / (Taps / 2);
            weights[i] = sinc * Bessel(KaiserBeta * Math.Sqrt(Math.Max(0.0, 1.0 - (place * place)))) / Bessel(KaiserBeta);
        }

        return weights;
    }

    /// <summary>Modified Bessel function of order 0 by its series.</summary>
    private static double Bessel(double x)
    {
        double term = 1.0;
        double sum = 1.0;
        for (int k = 1; term > 1e-15 * sum; k++)
        {
            term *= x * x / (4.0 * k * k);
            sum += term;
        }

        return sum;
    }
}
