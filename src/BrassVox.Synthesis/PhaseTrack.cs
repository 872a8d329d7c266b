using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>The running phase of one tone, in double, and the turning pointer e^(2 pi i phase) of a stretch of samples.</summary>
internal struct PhaseTrack
{
    /// <summary>Phase in cycles, -0.5 to 0.5.</summary>
    internal double Cycles { get; set; }

    /// <summary>Fills the pointers of a stretch in which the frequency moves in a straight line; buffers hold whole vectors.</summary>
    /// <param name="from">Cycles per sample at the start.</param>
    /// <param name="to">Cycles per sample at the end.</param>
    /// <param name="samples">Length of the stretch.</param>
    /// <param name="real">Cosines.</param>
    /// <param name="imaginary">Sines.</param>
    internal void Fill(double from, double to, int samples, Span<float> real, Span<float> imaginary)
    {
        double bend = (to - from) / (2.0 * samples);
        int half = Vector<double>.Count;
        Vector<double> start = new(Cycles);
        Vector<double> slope = new(from);
        Vector<double> curve = new(bend);
        for (int i = 0; i < real.Length; i += 2 * half)
        {
            Vector<double> first = Vector<double>.Indices + new Vector<double>(i);
            Vector<double> second = first + new Vector<double>(half);
            Vector<float> x = Vector.Narrow(Fraction(start, slope, curve, first), Fraction(start, slope, curve, second)) * MathF.PI;
            Vector<float> y = x * x;

            // Taylor series of half the angle, then the double: error below 2e-7.
            Vector<float> sine = Step(Step(Step(Step(Step(Step(
                new Vector<float>(1f / 6227020800f), y, -1f / 39916800f), y, 1f / 362880f), y, -1f / 5040f), y, 1f / 120f), y, -1f / 6f), y, 1f) * x;
            Vector<float> cosine = Step(Step(Step(Step(Step(Step(
                new Vector<float>(1f / 479001600f), y, -1f / 3628800f), y, 1f / 40320f), y, -1f / 720f), y, 1f / 24f), y, -1f / 2f), y, 1f);
            Vector<float> twice = sine + sine;
            Vector.FusedMultiplyAdd(-twice, sine, Vector<float>.One).CopyTo(real[i..]);
            (twice * cosine).CopyTo(imaginary[i..]);
        }

        double end = Cycles + ((from + (bend * samples)) * samples);
        Cycles = end - Math.Round(end);
    }

    private static Vector<double> Fraction(Vector<double> start, Vector<double> slope, Vector<double> curve, Vector<double> at)
    {
        Vector<double> cycles = Vector.FusedMultiplyAdd(Vector.FusedMultiplyAdd(curve, at, slope), at, start);
        return cycles - Vector.Round(cycles);
    }

    private static Vector<float> Step(Vector<float> sum, Vector<float> x, float next) =>
        Vector.FusedMultiplyAdd(sum, x, new Vector<float>(next));
}
