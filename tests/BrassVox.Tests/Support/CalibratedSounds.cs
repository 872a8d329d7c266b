namespace BrassVox.Tests.Support;

/// <summary>Test sounds for the sensation meters: level in dB SPL, a sine of amplitude 1 standing for 100 dB.</summary>
internal static class CalibratedSounds
{
    internal const int Rate = 48_000;
    internal const double FullScaleDbSpl = 100;

    internal static float[] Sounding(int samples, double dbSpl, Func<double, double> at)
    {
        double[] x = [.. Enumerable.Range(0, samples).Select(i => at((double)i / Rate))];
        double rms = Math.Sqrt(x.Average(v => v * v));
        double gain = Math.Sqrt(0.5) * Math.Pow(10, (dbSpl - FullScaleDbSpl) / 20) / rms;
        return [.. x.Select(v => (float)(v * gain))];
    }

    internal static float[] Modulated(int samples, double carrierHz, double rateHz, double dbSpl, double depth = 1) =>
        Sounding(samples, dbSpl, t => (1 + (depth * Sine(rateHz, t))) * Sine(carrierHz, t));

    internal static float[] ModulatedNoise(int samples, double rateHz, double dbSpl, double depth)
    {
        var random = new Random(1);
        return Sounding(samples, dbSpl, t => (1 + (depth * Sine(rateHz, t))) * Gauss(random));
    }

    internal static float[] Pair(
        int samples, double dbSpl, double playedHz, double[] playedAmplitudes, double sungHz, double[] sungAmplitudes) =>
        Sounding(samples, dbSpl, t => Tone(playedHz, playedAmplitudes, t) + Tone(sungHz, sungAmplitudes, t));

    internal static double Tone(double hz, double[] amplitudes, double t)
    {
        double sum = 0;
        for (int n = 0; n < amplitudes.Length; n++)
        {
            sum += amplitudes[n] * Sine((n + 1) * hz, t);
        }

        return sum;
    }

    internal static double Sine(double hz, double t) => Math.Sin(2 * Math.PI * hz * t);

    internal static double Gauss(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
