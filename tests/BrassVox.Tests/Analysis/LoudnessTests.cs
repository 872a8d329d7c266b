using BrassVox.Analysis.Loudness;
using Xunit;

namespace BrassVox.Tests.Analysis;

public sealed class LoudnessTests
{
    private const int Rate = 48_000;

    // Source: ITU-R BS.1770, tables 1 and 2.
    [Fact]
    public void Filters_are_the_published_ones_at_48_kHz()
    {
        (double b0, double b1, double b2, double a1, double a2, double highA1, double highA2) = new KWeighting(Rate).Coefficients;
        Assert.Equal(1.53512485958697, b0, 1e-9);
        Assert.Equal(-2.69169618940638, b1, 1e-9);
        Assert.Equal(1.19839281085285, b2, 1e-9);
        Assert.Equal(-1.69065929318241, a1, 1e-9);
        Assert.Equal(0.73248077421585, a2, 1e-9);
        Assert.Equal(-1.99004745483398, highA1, 1e-9);
        Assert.Equal(0.99007225036621, highA2, 1e-9);
    }

    // Source: the same filters at 44.1 kHz as other open meters have them.
    [Fact]
    public void Filters_at_44_1_kHz()
    {
        (double b0, _, double b2, double a1, _, double highA1, _) = new KWeighting(44_100).Coefficients;
        Assert.Equal(1.53084123005035, b0, 1e-9);
        Assert.Equal(1.16907907992159, b2, 1e-9);
        Assert.Equal(-1.66365511325602, a1, 1e-9);
        Assert.Equal(-1.98916967362980, highA1, 1e-9);
    }

    // Source: ITU-R BS.1770-4: a 997 Hz sine at 0 dBFS in one channel reads -3.01.
    [Fact]
    public void A_full_scale_sine_in_one_channel() =>
        Assert.Equal(-3.01, Meter(Rate, 1, (1, 0)).IntegratedLufs, 0.01);

    // Source: EBU Tech 3341, cases 1 and 2: momentary and short-term agree with the level.
    [Fact]
    public void Momentary_and_short_term_of_a_steady_tone()
    {
        LoudnessMeter meter = Meter(Rate, 2, (4, -23));
        Assert.Equal(-23, meter.MomentaryLufs, 0.1);
        Assert.Equal(-23, meter.ShortTermLufs, 0.1);
        Assert.Equal(-23, meter.LargestMomentaryLufs, 0.1);
        Assert.Equal(-23, meter.LargestShortTermLufs, 0.1);
    }

    [Fact]
    public void Silence_and_broken_samples_have_no_loudness()
    {
        var meter = new LoudnessMeter(Rate, 1);
        Assert.Equal(double.NegativeInfinity, meter.IntegratedLufs);
        meter.Push(new float[Rate]);
        meter.Push(Enumerable.Repeat(float.NaN, Rate).ToArray());
        Assert.Equal(double.NegativeInfinity, meter.IntegratedLufs);
        Assert.Equal(0, meter.RangeLu);
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoudnessMeter(Rate, 3));
    }

    // Source: EBU Tech 3341, cases 15 to 19 (+0.2, -0.4 dB): sine of the rate / 4 at 45 degrees and others, sample peak 3 dB too low.
    [Theory]
    [InlineData(4, 0, 0.5, -6.0)]
    [InlineData(4, 45, 0.5, -6.0)]
    [InlineData(6, 60, 0.5, -6.0)]
    [InlineData(8, 67.5, 0.5, -6.0)]
    [InlineData(4, 45, 1.41, 3.0)]
    public void True_peak_of_the_published_sines(double divisor, double degrees, double amplitude, double dbtp)
    {
        // Faded in and out, as the published files are.
        float[] sine = [.. Enumerable.Range(0, Rate / 4).Select(n => (float)(amplitude
            * Math.Min(1, Math.Min(n, (Rate / 4) - n) / 480.0)
            * Math.Sin((2 * Math.PI * n / divisor) + (degrees * Math.PI / 180))))];
        var meter = new TruePeakMeter(Rate);
        meter.Push(sine);
        Assert.InRange(meter.PeakDbtp, dbtp - 0.4, dbtp + 0.2);
    }

    [Fact]
    public void True_peak_is_never_under_the_sample_peak_and_survives_broken_samples()
    {
        var random = new Random(1);
        float[] noise = [.. Enumerable.Range(0, 5000).Select(_ => (float)((2 * random.NextDouble()) - 1))];
        var meter = new TruePeakMeter(Rate);
        meter.Push([.. noise, float.NaN, .. new float[64]]);
        Assert.InRange(meter.Peak, noise.Max(Math.Abs), 4);
        meter.Reset();
        Assert.Equal(double.NegativeInfinity, meter.PeakDbtp);
    }

    // Source: IEC 61672-1, table 3, at the exact base-10 centre frequencies.
    [Theory]
    [InlineData(10, -70.4)]
    [InlineData(31.6228, -39.4)]
    [InlineData(63.0957, -26.2)]
    [InlineData(125.8925, -16.1)]
    [InlineData(251.1886, -8.6)]
    [InlineData(501.1872, -3.2)]
    [InlineData(1000, 0)]
    [InlineData(3981.0717, 1.0)]
    [InlineData(15848.932, -6.6)]
    public void A_weighting_of_the_published_table(double hz, double db) => Assert.Equal(db, AWeighting.Db(hz), 0.1);

    // Source: the same formula worked by another program at Bb0, Bb1, Bb2.
    [Theory]
    [InlineData(29.135, -41.258)]
    [InlineData(58.27, -27.548)]
    [InlineData(116.54, -17.084)]
    public void A_weighting_of_low_notes(double hz, double db) => Assert.Equal(db, AWeighting.Db(hz), 0.02);

    // Source: NIOSH exposure table; WHO-ITU H.870.
    [Fact]
    public void Dose()
    {
        Assert.Equal(4, NoiseDose.NioshHours(88), 1e-12);
        Assert.Equal(1, NoiseDose.NioshHours(94), 1e-12);
        Assert.Equal(0.25, NoiseDose.NioshHours(100), 1e-12);
        Assert.Equal(20.05, NoiseDose.WeeklyHours(83), 0.01);
        Assert.Equal(4, NoiseDose.WeeklyHours(90), 1e-9);
        Assert.Equal(0.5, NoiseDose.NioshShare(91, 1), 1e-12);
    }

    /// <summary>A meter that was reset reads as a new one; half an instant at the end of a push is left out.</summary>
    [Fact]
    public void A_reset_meter_is_as_new()
    {
        LoudnessMeter meter = Meter(8_000, 2, (4, 0));
        meter.Push(new float[101]);
        meter.Reset();
        Assert.All((double[])[meter.MomentaryLufs, meter.ShortTermLufs, meter.IntegratedLufs, meter.LargestMomentaryLufs, meter.LargestShortTermLufs], lufs => Assert.Equal(double.NegativeInfinity, lufs));
        Assert.Equal(0, meter.RangeLu);
        var fresh = new LoudnessMeter(8_000, 2);
        float[] sound = [.. Enumerable.Range(0, 2 * 8_000).Select(n => (float)(0.1 * Math.Sin(n / 2 * 0.7)))];
        meter.Push(sound);
        fresh.Push(sound);
        Assert.Equal(fresh.MomentaryLufs, meter.MomentaryLufs);
        Assert.Equal(double.NegativeInfinity, meter.ShortTermLufs);
    }

    /// <summary>The largest stays when it grows quiet; the last 400 ms and 3 s do not.</summary>
    [Fact]
    public void The_largest_is_kept_while_the_last_goes_on()
    {
        LoudnessMeter meter = Meter(8_000, 2, (4, -20), (4, -40));
        Assert.Equal(-40, meter.MomentaryLufs, 0.1);
        Assert.Equal(-40, meter.ShortTermLufs, 0.1);
        Assert.Equal(-20, meter.LargestMomentaryLufs, 0.1);
        Assert.Equal(-20, meter.LargestShortTermLufs, 0.1);
    }

    [Theory]
    [InlineData(7_999)]
    [InlineData(384_001)]
    public void Rates_have_ends(int rate)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new KWeighting(rate));
        Assert.Throws<ArgumentOutOfRangeException>(() => new TruePeakMeter(rate));
        int last = rate < 8_000 ? 8_000 : 384_000;
        Assert.Equal(0, new KWeighting(last).Next(0));
        Assert.Equal(0, new TruePeakMeter(last).Peak);
        Assert.Throws<ArgumentOutOfRangeException>(() => new LoudnessMeter(Rate, 0));
    }

    /// <summary>A sine of a quarter of the rate at 45 degrees peaks between its samples, 3 dB over them; at 192 kHz and more the samples themselves are read.</summary>
    [Theory]
    [InlineData(48_000, 1.0)]
    [InlineData(96_000, 1.0)]
    [InlineData(176_400, 0.70711)]
    public void Between_the_samples_is_read_up_to_192_kHz(int rate, double peak)
    {
        var meter = new TruePeakMeter(rate);
        meter.Push([.. Enumerable.Range(0, 2_000).Select(n => (float)(Math.Min(1, Math.Min(n, 2_000 - n) / 480.0) * Math.Sin((Math.PI / 2 * n) + (Math.PI / 4))))]);
        Assert.Equal(peak, meter.Peak, 0.01);
        Assert.Equal(20 * Math.Log10(meter.Peak), meter.PeakDbtp, 9);
    }

    [Fact]
    public void A_level_is_positive_in_hertz_and_time_is_not_negative()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => AWeighting.Db(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => NoiseDose.NioshShare(85, -1));
        Assert.Equal(0, NoiseDose.NioshShare(85, 0));
    }

    /// <summary>
    /// Two seconds at one level and two at another: 17 blocks of each, three between them of three, two and one quarters. What is under -70 LUFS or 10 LU
    /// under the mean of the rest does not count. Source: ITU-R BS.1770-4, the gates.
    /// </summary>
    [Theory]
    [InlineData(-20, -35, 20)]
    [InlineData(-20, -31, 37)]
    [InlineData(-60, -72, 20)]
    [InlineData(-60, -68, 37)]
    [InlineData(-31, -20, 37)]
    [InlineData(-72, -60, 20)]
    public void Integrated_loudness_leaves_out_what_is_far_under_the_rest(double first, double second, int blocks)
    {
        double a = Math.Pow(10, first / 10), b = Math.Pow(10, second / 10);
        double sum = 1.5 * (a + b);
        sum += blocks == 37 ? 17 * (a + b) : 17 * Math.Max(a, b);
        Assert.Equal(10 * Math.Log10(sum / blocks), Meter(8_000, 2, (2, first), (2, second)).IntegratedLufs, 0.05);
    }

    /// <summary>Five seconds at each of two levels. Source: EBU Tech 3342: from the 10th to the 95th of a hundred short-term values, of those over -70 LUFS and 20 LU under their mean.</summary>
    [Theory]
    [InlineData(-20, -30)]
    [InlineData(-30, -20)]
    [InlineData(-20, -45)]
    [InlineData(-55, -73)]
    public void Loudness_range_lies_between_percentiles(double first, double second)
    {
        // Of 100 tenths of a second: means of 30, one each tenth.
        double[] steps = [.. Enumerable.Range(0, 100).Select(i => Math.Pow(10, (i < 50 ? first : second) / 10))];
        double[] blocks = [.. Enumerable.Range(0, 71).Select(i => steps.Skip(i).Take(30).Average()).Where(power => power > 1e-7).Order()];
        blocks = [.. blocks.Where(power => power > 0.01 * blocks.Average())];
        double range = 10 * Math.Log10(blocks[(int)Math.Round(0.95 * (blocks.Length - 1))] / blocks[(int)Math.Round(0.1 * (blocks.Length - 1))]);
        Assert.Equal(range, Meter(8_000, 2, (5, first), (5, second)).RangeLu, 0.05);
    }

    internal static LoudnessMeter Meter(int rate, int channels, params (double Seconds, double Db)[] parts)
    {
        var meter = new LoudnessMeter(rate, channels);
        long n = 0;
        double hz = channels == 1 ? 997 : 1000;
        foreach ((double seconds, double db) in parts)
        {
            float[] samples = new float[(int)(seconds * rate) * channels];
            for (int i = 0; i < samples.Length; i += channels, n++)
            {
                float value = (float)(Math.Pow(10, db / 20) * Math.Sin(2 * Math.PI * hz * n / rate));
                samples.AsSpan(i, channels).Fill(value);
            }

            meter.Push(samples);
        }

        return meter;
    }
}
