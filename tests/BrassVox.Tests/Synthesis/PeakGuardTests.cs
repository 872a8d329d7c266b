using BrassVox.Synthesis;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>The last stage, fed with what no tone would send.</summary>
public sealed class PeakGuardTests
{
    private const int Tick = PeakGuard.TickSamples;

    // ITU-R BS.1770-4 annex 2 defines true peak; measured here by a 8-fold interpolation with 64-point windowed sines. -1 dBTP is 0.8913.
    [Theory]
    [InlineData("quarter rate")]
    [InlineData("noise")]
    [InlineData("steps")]
    [InlineData("growing")]
    public void True_peak_stays_under_minus_one_dBTP(string kind)
    {
        Random random = new(3);
        float[] input = new float[150 * Tick];
        for (int i = 0; i < input.Length; i++)
        {
            input[i] = kind switch
            {
                "quarter rate" => 3f * MathF.Sin((MathF.PI * i / 2) + (MathF.PI / 4)),
                "noise" => (float)((random.NextDouble() * 8) - 4),
                "steps" => i / 700 % 2 == 0 ? 0.2f : -5f,
                _ => (float)(Math.Pow(10, i / 3000.0) * 0.01 * Math.Sin(0.3 * i)),
            };
        }

        if (kind == "noise")
        {
            // Sound has little near half the rate: a gentle average, as any recording.
            for (int i = input.Length - 1; i > 1; i--)
            {
                input[i] = 0.25f * (input[i] + (2 * input[i - 1]) + input[i - 2]);
            }
        }

        float[] output = Through(input);
        Assert.InRange(TruePeak(output), 0, 0.8913);
        Assert.True(output.Max(Math.Abs) > 0.3f);
    }

    [Fact]
    public void What_is_low_enough_passes_untouched()
    {
        float[] input = [.. Enumerable.Range(0, 100 * Tick).Select(i => 0.8f * MathF.Sin(0.05f * i))];
        float[] output = Through(input);
        Assert.Equal(input[..^(PeakGuard.LatencyTicks * Tick)], output[(PeakGuard.LatencyTicks * Tick)..]);
    }

    [Fact]
    public void Whatever_comes_in_finite_sound_comes_out_and_returns()
    {
        float[] input = [.. Enumerable.Range(0, 2000 * Tick).Select(i => 0.5f * MathF.Sin(0.05f * i))];
        input[5000] = float.NaN;
        input[5001] = float.PositiveInfinity;
        input[5002] = float.NegativeInfinity;
        input[5003] = 1e30f;
        float[] output = Through(input);
        Assert.All(output, sample => Assert.InRange(sample, -0.8913f, 0.8913f));
        Assert.InRange(output[^48000..].Max(), 0.49f, 0.5f);
    }

    private static float[] Through(float[] input)
    {
        PeakGuard guard = new();
        guard.Prepare(48000);
        TickDelay delay = new();
        float[] output = [.. input];
        for (int at = 0; at < output.Length; at += Tick)
        {
            Span<float> tick = output.AsSpan(at, Tick);
            guard.Repair(tick);
            guard.Push(tick);
            delay.Exchange(tick, guard.GainFrom, guard.GainTo);
        }

        return output;
    }

    private static double TruePeak(float[] sound)
    {
        const int Half = 32;
        double highest = 0;
        for (int phase = 0; phase < 8; phase++)
        {
            double[] taps = new double[2 * Half];
            for (int k = 0; k < taps.Length; k++)
            {
                double t = k - Half + 1 - (phase / 8.0);
                double sinc = t == 0 ? 1 : Math.Sin(Math.PI * t) / (Math.PI * t);
                taps[k] = sinc * (0.5 + (0.5 * Math.Cos(Math.PI * t / (Half + 1))));
            }

            for (int i = Half; i < sound.Length - Half; i++)
            {
                double sum = 0;
                for (int k = 0; k < taps.Length; k++)
                {
                    sum += taps[k] * sound[i + k - Half + 1];
                }

                highest = Math.Max(highest, Math.Abs(sum));
            }
        }

        return highest;
    }
}
