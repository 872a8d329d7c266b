using BrassVox.Analysis.RoundTrip;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Truth is the delay put in by the simulated room; the aim is 10 ms, the measure is in samples.</summary>
public sealed class DelayProbeTests
{
    private const int Rate = 16_000;

    [Theory]
    [InlineData(0, 0, 60)]
    [InlineData(37.25, 0, 60)]
    [InlineData(1234.56, 0, 0)]
    [InlineData(1234.56, 0.1, 20)]
    [InlineData(4000.5, 0.1, 0)]
    [InlineData(7900, 0.1, -6)]
    public void The_delay_is_found_in_rooms_and_noise(double delay, double roomSeconds, double noiseDb)
    {
        var probe = new DelayProbe(Rate);
        float[] heard = new SimulatedRoom(Rate, delay, roomSeconds, 5).Heard(probe.Signal.Span, Rate / 2);
        // The signal sounds for 0.45 s of its 2.25 s; noise is set against its level while it sounds.
        double level = WanderingPlayer.Rms(probe.Signal.Span) * Math.Sqrt(2.25 / 0.45);
        float[] noise = WanderingPlayer.Noise(heard.Length, level * Math.Pow(10, -noiseDb / 20), 6);

        DelayReading reading = probe.Measure([.. heard.Zip(noise, (a, b) => a + b)]);

        Assert.True(reading.Found);
        Assert.Equal(delay, reading.DelaySamples, roomSeconds > 0 ? 5.0 : 0.5);
        Assert.InRange(reading.Confidence, 0.95, 1);
    }

    [Fact]
    public void Nothing_is_found_where_nothing_came_back()
    {
        var probe = new DelayProbe(Rate);
        Assert.False(probe.Measure([]).Found);
        Assert.False(probe.Measure(new float[3 * Rate]).Found);
        Assert.False(probe.Measure(Enumerable.Repeat(float.NaN, 3 * Rate).ToArray()).Found);
        Assert.False(probe.Measure(Enumerable.Repeat(1f, 3 * Rate).ToArray()).Found);
        for (int seed = 0; seed < 10; seed++)
        {
            Assert.False(probe.Measure(WanderingPlayer.Noise(3 * Rate, 0.1, seed)).Found);
            Assert.False(probe.Measure(WanderingPlayer.Tone(Rate, 3, 116.54, 12, 0.8, 0.1, seed)).Found);
        }
    }

    [Fact]
    public void A_delay_beyond_the_longest_is_not_passed_off_as_a_short_one()
    {
        var probe = new DelayProbe(Rate);
        for (int delay = 9_000; delay < 30_000; delay += 700)
        {
            Assert.False(probe.Measure(new SimulatedRoom(Rate, delay, 0, 5).Heard(probe.Signal.Span, 2 * Rate)).Found);
        }
    }

    [Fact]
    public void A_device_that_skips_between_the_tones_is_noticed()
    {
        var probe = new DelayProbe(Rate);
        List<float> heard = [.. new SimulatedRoom(Rate, 400, 0, 5).Heard(probe.Signal.Span, Rate / 2)];
        heard.InsertRange(Rate, new float[256]);

        DelayReading reading = probe.Measure([.. heard]);

        Assert.Equal(256, reading.SpreadSamples, 1.0);
        Assert.Equal(400, reading.DelaySamples, 1.0);
        Assert.InRange(reading.Confidence, 0.5, 0.7);
    }

    [Fact]
    public void The_signal_is_quiet_and_starts_and_ends_softly()
    {
        float[] signal = new DelayProbe(48_000).Signal.ToArray();
        Assert.InRange(signal.Max(Math.Abs), 0.09, 0.1001);
        Assert.Equal(0, signal[0]);
        Assert.Equal(0, signal[^1]);
        for (int n = 1; n < signal.Length; n++)
        {
            Assert.InRange(Math.Abs(signal[n] - signal[n - 1]), 0, 0.1 * 2 * Math.PI * 6000 / 48_000);
        }
    }

    [Fact]
    public void Bad_arguments_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new DelayProbe(4_000));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DelayProbe(48_000, 0));
    }
}
