using BrassVox.Analysis.RoundTrip;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Paths that do something to a steady sound, and paths that do not.</summary>
public sealed class InputProcessingTests
{
    [Theory]
    [InlineData(16_000, 0.02)]
    [InlineData(48_000, 0.08)]
    [InlineData(48_000, 0.35)]
    public void A_plain_path_with_delay_and_hiss_is_found_plain(int rateHz, double delaySeconds)
    {
        InputProcessingReading reading = Through(rateHz, delaySeconds, (sample, _) => 0.1 * sample);
        Assert.True(reading.Heard);
        Assert.False(reading.IsGainTurned, reading.ToString());
        Assert.False(reading.IsNoiseRemoved, reading.ToString());
    }

    /// <summary>Gain that aims at one level with a time constant of one second, up and down.</summary>
    [Fact]
    public void Automatic_gain_is_found()
    {
        double gain = 1;
        double power = 1e-4;
        InputProcessingReading reading = Through(48_000, 0.05, (sample, rate) =>
        {
            power += ((sample * sample) - power) / (0.05 * rate);
            double wanted = Math.Clamp(0.02 / Math.Sqrt(power + 1e-9), 0.1, 10);
            gain += (wanted - gain) / (1.0 * rate);
            return gain * sample;
        });
        Assert.True(reading.IsGainTurned, reading.ToString());
    }

    /// <summary>What stays steady for seconds is let down by 20 dB, as a remover of background noise does.</summary>
    [Fact]
    public void A_noise_remover_is_found()
    {
        double slow = 0;
        double quick = 0;
        InputProcessingReading reading = Through(48_000, 0.05, (sample, rate) =>
        {
            quick += (Math.Abs(sample) - quick) / (0.02 * rate);
            slow += (quick - slow) / (0.8 * rate);
            return sample * Math.Clamp(1.0 - (slow / Math.Max(quick, 1e-6)), 0.1, 1);
        });
        Assert.True(reading.IsNoiseRemoved, reading.ToString());
    }

    [Fact]
    public void Silence_is_not_heard() => Assert.False(Through(48_000, 0.05, (_, _) => 0).Heard);

    private static InputProcessingReading Through(int rateHz, double delaySeconds, Func<double, int, double> path)
    {
        var probe = new InputProcessingProbe(rateHz);
        ReadOnlySpan<float> signal = probe.Signal.Span;
        var random = new Random(7);
        float[] recorded = new float[signal.Length + (int)(0.6 * rateHz)];
        int delay = (int)(delaySeconds * rateHz);
        for (int i = 0; i < recorded.Length; i++)
        {
            double sample = i >= delay && i - delay < signal.Length ? signal[i - delay] : 0;
            recorded[i] = (float)(path(sample, rateHz) + (2e-5 * ((2 * random.NextDouble()) - 1)));
        }

        return probe.Measure(recorded);
    }
}
