using MathNet.Numerics.LinearAlgebra;

namespace BrassVox.Tests.Audio;

/// <summary>Measures sines of nearly known frequency by least squares, with nothing of BrassVox in it.</summary>
internal static class Tone
{
    /// <summary>Frequency in Hz of one tone among others, found by refining around a first guess.</summary>
    internal static double[] FrequenciesHz(ReadOnlySpan<float> samples, int sampleRateHz, params double[] guessesHz)
    {
        // The phase of each tone in successive stretches, fitted by a straight line, corrects the guess (three rounds).
        double[] found = [.. guessesHz];
        int stretch = sampleRateHz / 4;
        for (int round = 0; round < 3; round++)
        {
            int count = samples.Length / stretch;
            double[][] phases = new double[count][];
            for (int i = 0; i < count; i++)
                phases[i] = Phases(samples.Slice(i * stretch, stretch), i * stretch, sampleRateHz, found);
            for (int tone = 0; tone < found.Length; tone++)
            {
                double[] unwrapped = Unwrap([.. phases.Select(p => p[tone])]);
                found[tone] += Slope(unwrapped) / (2 * Math.PI * stretch / sampleRateHz);
            }
        }

        return found;
    }

    /// <summary>Largest departure, in radians, of a tone's phase in short stretches from a straight line.</summary>
    internal static double LargestPhaseJump(ReadOnlySpan<float> samples, int sampleRateHz, double[] tonesHz, int tone)
    {
        int stretch = sampleRateHz / 5;
        double[] phases = new double[samples.Length / stretch];
        for (int i = 0; i < phases.Length; i++)
            phases[i] = Phases(samples.Slice(i * stretch, stretch), i * stretch, sampleRateHz, tonesHz)[tone];
        double[] unwrapped = Unwrap(phases);
        double slope = Slope(unwrapped);
        double mean = unwrapped.Average();
        double centre = (unwrapped.Length - 1) / 2.0;
        return unwrapped.Select((phase, i) => Math.Abs(phase - mean - slope * (i - centre))).Max();
    }

    /// <summary>Cents from one frequency to another.</summary>
    internal static double Cents(double fromHz, double toHz) => 1200 * Math.Log2(toHz / fromHz);

    private static double[] Phases(ReadOnlySpan<float> samples, int first, int sampleRateHz, double[] tonesHz)
    {
        var basis = Matrix<double>.Build.Dense(samples.Length, 2 * tonesHz.Length);
        var heard = Vector<double>.Build.Dense(samples.Length);
        for (int i = 0; i < samples.Length; i++)
        {
            heard[i] = samples[i];
            for (int tone = 0; tone < tonesHz.Length; tone++)
            {
                double angle = 2 * Math.PI * tonesHz[tone] * (first + i) / sampleRateHz;
                basis[i, 2 * tone] = Math.Sin(angle);
                basis[i, 2 * tone + 1] = Math.Cos(angle);
            }
        }

        Vector<double> fit = (basis.TransposeThisAndMultiply(basis)).Solve(basis.TransposeThisAndMultiply(heard));
        return [.. Enumerable.Range(0, tonesHz.Length).Select(tone => Math.Atan2(fit[2 * tone + 1], fit[2 * tone]))];
    }

    private static double[] Unwrap(double[] phases)
    {
        for (int i = 1; i < phases.Length; i++)
            phases[i] -= 2 * Math.PI * Math.Round((phases[i] - phases[i - 1]) / (2 * Math.PI));
        return phases;
    }

    private static double Slope(double[] values)
    {
        double centre = (values.Length - 1) / 2.0;
        double across = values.Select((_, i) => (i - centre) * (i - centre)).Sum();
        return across == 0 ? 0 : values.Select((value, i) => (i - centre) * value).Sum() / across;
    }
}
