namespace BrassVox.Tests.Analysis;

/// <summary>Sounds with known truth for the analysis tests: plain sums of sines, written here and not by the synthesis under test.</summary>
internal static class TestTone
{
    /// <summary>Harmonics falling by a rate per octave, with phases from a seed; pitch may move.</summary>
    public static float[] Harmonic(
        int rateHz, double seconds, Func<double, double> pitchHz, double amplitude, double dbPerOctave = -6.0, double topHz = 4000.0, int seed = 1)
    {
        Random random = new(seed);
        float[] sound = new float[(int)(seconds * rateHz)];
        int partials = (int)(Math.Min(topHz, 0.45 * rateHz) / pitchHz(0.0));
        double[] phases = [.. Enumerable.Range(0, partials).Select(_ => 2.0 * Math.PI * random.NextDouble())];
        double[] levels = [.. Enumerable.Range(1, partials).Select(k => amplitude * Math.Pow(k, dbPerOctave / 6.0206))];
        double turn = 0.0;
        for (int i = 0; i < sound.Length; i++)
        {
            double sum = 0.0;
            for (int k = 0; k < partials; k++)
            {
                sum += levels[k] * Math.Cos((2.0 * Math.PI * (k + 1) * turn) + phases[k]);
            }

            sound[i] = (float)sum;
            turn += pitchHz((double)i / rateHz) / rateHz;
        }

        return sound;
    }

    /// <summary>One sine of steady pitch.</summary>
    public static float[] Sine(int rateHz, double seconds, double hz, double amplitude) =>
        Harmonic(rateHz, seconds, _ => hz, amplitude, topHz: 1.5 * hz);

    /// <summary>Normally distributed noise.</summary>
    public static float[] Noise(int rateHz, double seconds, double rms, int seed)
    {
        Random random = new(seed);
        float[] sound = new float[(int)(seconds * rateHz)];
        for (int i = 0; i < sound.Length; i++)
        {
            double radius = Math.Sqrt(-2.0 * Math.Log(1.0 - random.NextDouble()));
            sound[i] = (float)(rms * radius * Math.Cos(2.0 * Math.PI * random.NextDouble()));
        }

        return sound;
    }

    /// <summary>One sample of a series whose fundamental has turned so often; partials from 0.45 of the rate on are left out, 0 Hz is silent.</summary>
    public static double SeriesSample(double[] partials, double cycles, double hz, int rateHz)
    {
        double sum = 0;
        for (int n = 1; hz > 0 && n <= partials.Length && n * hz < 0.45 * rateHz; n++)
        {
            sum += partials[n - 1] * Math.Sin((2 * Math.PI * n * cycles) + (0.9 * n * n));
        }

        return sum;
    }

    /// <summary>Sum, sample by sample, as long as the first.</summary>
    public static float[] Sum(params float[][] parts)
    {
        float[] sum = new float[parts[0].Length];
        foreach (float[] part in parts)
        {
            for (int i = 0; i < Math.Min(sum.Length, part.Length); i++)
            {
                sum[i] += part[i];
            }
        }

        return sum;
    }
}
