namespace BrassVox.Tests.Support;

/// <summary>A harmonic tone whose pitch wanders as a player's does: slowly by some 8 cents, quickly by 1.</summary>
internal static class WanderingPlayer
{
    internal static float[] Tone(
        int sampleRateHz, double seconds, double hz, int harmonics, double fall, double rms, int seed, double fromSeconds = 0)
    {
        var random = new Random(seed);
        double[] x = new double[(int)(seconds * sampleRateHz)];
        double phase = 0, slow = 0, cents = 0;
        for (int n = 0; n < x.Length; n++)
        {
            if (n % (sampleRateHz / 100) == 0)
            {
                slow = (0.995 * slow) + (0.6 * CalibratedSounds.Gauss(random));
                cents = slow + CalibratedSounds.Gauss(random);
            }

            phase += 2 * Math.PI * hz * Math.Pow(2, cents / 1200) / sampleRateHz;
            double attack = Math.Clamp((((double)n / sampleRateHz) - fromSeconds) / 0.08, 0, 1);
            for (int k = 1; attack > 0 && k <= harmonics; k++)
            {
                x[n] += attack * Math.Pow(k, -fall) * Math.Sin((k * phase) + (k * k));
            }
        }

        return Scaled(x, rms);
    }

    internal static float[] Drone(int sampleRateHz, double seconds, double hz, int harmonics, double rms)
    {
        double[] amplitudes = [.. Enumerable.Range(1, harmonics).Select(k => 1.0 / k)];
        double[] x = [.. Enumerable.Range(0, (int)(seconds * sampleRateHz))
            .Select(n => CalibratedSounds.Tone(hz, amplitudes, (double)n / sampleRateHz))];
        return Scaled(x, rms);
    }

    internal static float[] Noise(int samples, double rms, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, samples).Select(_ => (float)(rms * CalibratedSounds.Gauss(random)))];
    }

    internal static double Rms(ReadOnlySpan<float> x)
    {
        double sum = 0;
        foreach (float v in x)
        {
            sum += v * v;
        }

        return Math.Sqrt(sum / x.Length);
    }

    private static float[] Scaled(double[] x, double rms)
    {
        double gain = rms / Math.Sqrt(x.Average(v => v * v));
        return [.. x.Select(v => (float)(v * gain))];
    }
}
