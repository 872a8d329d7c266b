namespace BrassVox.Tests.Synthesis;

/// <summary>Measurements of sound, written apart from the product: direct windowed sums and the loudness filter of BS.1770.</summary>
internal static class Spectrum
{
    /// <summary>Level at a frequency through a four-term window, a sine of amplitude 1 reads 0 dB.</summary>
    public static double LevelDb(ReadOnlySpan<float> sound, int rate, double hz)
    {
        // Turning pointers instead of a sine per sample; over these lengths they stay exact to 1e-11.
        (double turnSine, double turnCosine) = Math.SinCos(2 * Math.PI * hz / rate);
        (double windowSine, double windowCosine) = Math.SinCos(2 * Math.PI / sound.Length);
        double cosine = 1, sine = 0, once = 1, quarter = 0;
        double real = 0, imaginary = 0, weight = 0;
        foreach (float sample in sound)
        {
            double twice = (2 * once * once) - 1;
            double window = 0.35875 - (0.48829 * once) + (0.14128 * twice) - (0.01168 * once * ((2 * twice) - 1));
            double weighted = window * sample;
            real += weighted * cosine;
            imaginary -= weighted * sine;
            weight += window;
            double next = (cosine * turnCosine) - (sine * turnSine);
            sine = (cosine * turnSine) + (sine * turnCosine);
            cosine = next;
            next = (once * windowCosine) - (quarter * windowSine);
            quarter = (once * windowSine) + (quarter * windowCosine);
            once = next;
        }

        return 20 * Math.Log10((2 * Math.Sqrt((real * real) + (imaginary * imaginary)) / weight) + 1e-15);
    }

    /// <summary>Frequency of the strongest line between two, found by narrowing.</summary>
    public static double StrongestHz(ReadOnlySpan<float> sound, int rate, double lowHz, double highHz)
    {
        // Frequencies of interest lie low: every sixteenth sum of sixteen samples keeps them and makes the search quick.
        const int Fold = 16;
        float[] folded = new float[sound.Length / Fold];
        for (int i = 0; i < folded.Length; i++)
        {
            for (int k = 0; k < Fold; k++)
            {
                folded[i] += sound[(i * Fold) + k] / Fold;
            }
        }

        double best = lowHz;
        double step = (highHz - lowHz) / 40;
        while (step > 1e-4)
        {
            double level = double.NegativeInfinity;
            double from = Math.Max(lowHz, best - (20 * step));
            double center = best;
            for (double hz = from; hz <= Math.Min(highHz, center + (20 * step)) + 1e-12 || hz <= from + (40 * step); hz += step)
            {
                double now = LevelDb(folded, rate / Fold, hz);
                (level, best) = now > level ? (now, hz) : (level, best);
            }

            lowHz = best - step;
            highHz = best + step;
            step /= 10;
        }

        return best;
    }

    /// <summary>Loudness of one channel at 48 kHz, ungated (ITU-R BS.1770-4, tables 1 and 2).</summary>
    public static double LoudnessLufs(ReadOnlySpan<float> sound, int rate)
    {
        if (rate != 48000)
        {
            throw new ArgumentOutOfRangeException(nameof(rate), rate, "the printed coefficients are for 48000 Hz");
        }

        double a1 = 0, a2 = 0, b1 = 0, b2 = 0, sum = 0;
        foreach (float sample in sound)
        {
            double a0 = sample + (1.69065929318241 * a1) - (0.73248077421585 * a2);
            double shelf = (1.53512485958697 * a0) - (2.69169620938640 * a1) + (1.19839281085285 * a2);
            (a2, a1) = (a1, a0);
            double b0 = shelf + (1.99004745483398 * b1) - (0.99007225036621 * b2);
            double high = b0 - (2 * b1) + b2;
            (b2, b1) = (b1, b0);
            sum += high * high;
        }

        return -0.691 + (10 * Math.Log10(sum / sound.Length));
    }
}
