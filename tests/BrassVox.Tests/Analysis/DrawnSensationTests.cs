using BrassVox.Analysis.Sensation;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>The sensation meters at 8 kHz, where a window is short, and their bands on single lines. Source: named in each test; a sine of amplitude 1 stands for 100 dB.</summary>
public sealed class DrawnSensationTests
{
    private const int Rate = 8_000;
    private const int Length = 1_600;

    private static float[] Modulated(int count, double carrierHz, double rateHz, double db, double depth = 1)
    {
        double amplitude = Math.Pow(10, (db - 100) / 20) / Math.Sqrt(1 + (depth * depth / 2));
        return [.. Enumerable.Range(0, count).Select(n => (double)n / Rate).Select(t => (float)(amplitude * (1 + (depth * Math.Sin(2 * Math.PI * rateHz * t))) * Math.Sin(2 * Math.PI * carrierHz * t)))];
    }

    // Means of the rectified bands of one line, in units of a band that holds it whole: the mean of a rectified cosine times the amplitude, that in units of 20 micropascal, by the inverse transform's 2 / n.
    private static double[] Bands(double hz, double db, BrokenLine transmission, int rate = Rate)
    {
        int length = rate / 5;
        EarBands bands = new(rate, 100, [.. Enumerable.Repeat(1.0, length)], length, transmission);
        Assert.Equal(length, bands.Length);
        bands.Take([.. Enumerable.Range(0, length).Select(n => (float)(Math.Pow(10, (db - 100) / 20) * Math.Cos((2 * Math.PI * hz * n / rate) + 0.3)))]);
        double[] means = new double[EarBands.Count + 1];
        double[] first = new double[length], second = new double[length];
        for (int band = 0; band < EarBands.Count; band += 2)
        {
            bands.Rectified(band, first, second);
            (means[band], means[band + 1]) = (first.Average(), second.Average());
        }

        double whole = Math.Pow(10, db / 20) * 2 / length * Enumerable.Range(0, length).Average(n => Math.Abs(Math.Cos((2 * Math.PI * hz * n / rate) + 0.3)));
        return [.. means.Select(mean => mean / whole)];
    }

    /// <summary>
    /// 1 kHz lies at 8.5 Bark (Zwicker's table) and excites the bands at 8, 8.5 and 9 Bark wholly; those below by 27 dB a Bark less, those above by 24 + 230 / 1000 Hz - 0.2 x level.
    /// Source: Terhardt 1979, in Daniel and Weber 1997, section 3.
    /// </summary>
    [Theory]
    [InlineData(40, 13, 21)]
    [InlineData(60, 11, 26)]
    [InlineData(80, 10, 36)]
    public void A_line_spreads_by_the_published_slopes(double db, int lowest, int highest)
    {
        double[] bands = Bands(1_000, db, EarBands.TransmissionWithoutEarCanal);
        double upper = 24 + 0.23 - (0.2 * db);
        for (int band = 15; band <= 17; band++)
        {
            Assert.Equal(1, bands[band], 0.01);
        }

        Assert.Equal(-13.5, 20 * Math.Log10(bands[14]), 0.1);
        Assert.Equal(-0.5 * upper, 20 * Math.Log10(bands[18]), 0.1);
        Assert.Equal(-upper, 20 * Math.Log10(bands[19]), 0.1);
        Assert.Equal(0, bands[0]);
        Assert.Equal(0, bands[EarBands.Count]);

        // What falls under the threshold is silent to the last bit, also where the other band of its pair sounds: 4 to 5 dB from 6 to 8 Bark, 2 at 11, -0.3 at 13.5, -1 at 18.3.
        Assert.Equal((lowest, highest), (Array.FindIndex(bands, value => value != 0), Array.FindLastIndex(bands, value => value != 0)));
    }

    /// <summary>What the outer and middle ear take from high lines: source as above, figure of the transmission factor a0. Bark of the line by Zwicker's table.</summary>
    [Theory]
    [InlineData(7_700, 21, -2.59)]
    [InlineData(9_500, 22, -5.19)]
    [InlineData(12_000, 23, -11.3)]
    [InlineData(13_500, 23.5, -20)]
    public void High_lines_lose_what_the_ear_does_not_pass(double hz, double bark, double db)
    {
        Assert.Equal(bark, CriticalBands.BarkByTable(hz), 0.001);
        foreach (BrokenLine transmission in (BrokenLine[])[EarBands.TransmissionWithoutEarCanal, EarBands.TransmissionWithEarCanal])
        {
            double[] bands = Bands(hz, 80, transmission, 48_000);
            Assert.Equal(db, 20 * Math.Log10(bands[(int)(2 * bark) - 1]), 0.1);
            Assert.Equal(0, bands[EarBands.Count]);
        }
    }

    /// <summary>A sample that is no number counts as silence.</summary>
    [Fact]
    public void A_sample_that_is_no_number_is_silent()
    {
        float[] window = Modulated(Length, 1_000, 70, 60);
        (float[] holed, float[] silenced) = ([.. window], [.. window]);
        (holed[700], silenced[700]) = (float.NaN, 0);
        Assert.Equal(new RoughnessMeter(Rate, 100).Measure(silenced), new RoughnessMeter(Rate, 100).Measure(holed));
    }

    /// <summary>Under the threshold nothing is heard: 3 dB at 1 kHz, 19 at 1.5 Bark. The ear canal lifts 3.15 kHz, 15.5 Bark, by 6.3 dB.</summary>
    [Fact]
    public void What_is_heard_lies_over_the_threshold()
    {
        Assert.All(Bands(1_000, 1, EarBands.TransmissionWithoutEarCanal), value => Assert.Equal(0, value));
        Assert.Equal(1, Bands(1_000, 7, EarBands.TransmissionWithoutEarCanal)[16], 0.01);
        Assert.All(Bands(150, 18, EarBands.TransmissionWithoutEarCanal), value => Assert.Equal(0, value));
        Assert.Equal(1, Bands(150, 23, EarBands.TransmissionWithoutEarCanal)[2], 0.01);
        Assert.All(Bands(15, 100, EarBands.TransmissionWithoutEarCanal), value => Assert.Equal(0, value));
        double flat = Bands(2_900, 60, EarBands.TransmissionWithoutEarCanal)[30];
        Assert.Equal(1, flat, 0.01);
        Assert.Equal(6.27, 20 * Math.Log10(Bands(2_900, 60, EarBands.TransmissionWithEarCanal)[30]), 0.4);
    }

    // Source: listeners' values at 60 dB, wholly modulated: Daniel and Weber 1997, figure 3; the asper's definition. Tolerances as in RoughnessMeterTests.
    [Theory]
    [InlineData(1_000, 30, 0.428, 0.08)]
    [InlineData(1_000, 50, 0.842, 0.15)]
    [InlineData(1_000, 70, 1.0, 0.03)]
    [InlineData(1_000, 100, 0.783, 0.14)]
    [InlineData(1_000, 160, 0.335, 0.06)]
    [InlineData(125, 30, 0.341, 0.09)]
    [InlineData(250, 50, 0.486, 0.13)]
    [InlineData(500, 60, 0.694, 0.18)]
    public void Roughness_follows_listeners(double carrierHz, double rateHz, double asper, double tolerance)
    {
        RoughnessMeter meter = new(Rate, 100);
        Assert.Equal((Length, Length / 2, Rate), (meter.WindowSamples, meter.HopSamples, meter.SampleRateHz));
        double whole = meter.Measure(Modulated(Length, carrierHz, rateHz, 60));
        Assert.Equal(asper, whole, tolerance);

        // The whole is the sum over half-Bark bands, most of it near the carrier.
        double[] specific = meter.SpecificAsperPerBark.ToArray();
        Assert.Equal(whole, 0.5 * specific.Sum(), 1e-9);
        Assert.InRange(0.5 * (1 + Array.IndexOf(specific, specific.Max())), CriticalBands.BarkByTable(carrierHz) - 2, CriticalBands.BarkByTable(carrierHz) + 3);
    }

    [Fact]
    public void Roughness_over_a_take_is_that_of_its_windows()
    {
        RoughnessMeter meter = new(Rate, 100);
        float[] rough = Modulated(Length, 1_000, 70, 60);
        float[] take = [.. rough, .. new float[Length], .. rough];
        IReadOnlyList<double> values = meter.OverTake(take);
        Assert.Equal(5, values.Count);
        Assert.Equal(meter.Measure(rough), values[0], 9);
        Assert.Equal(values[0], values[4], 9);
        Assert.Equal(0, values[2]);

        // A steady tone is smooth; two lines 70 Hz apart beat as a modulated tone does, and without the right loudness they are less rough.
        Assert.InRange(meter.Measure(Modulated(Length, 1_000, 70, 60, depth: 0)), 0, 0.02);
        Assert.True(meter.Measure(Modulated(Length, 1_000, 70, 40)) < 0.9 * values[0]);
        Assert.InRange(meter.Measure(Modulated(Length, 1_000, 70, 60, depth: 0.5)) / values[0], 0.25, 0.41);
        Assert.Equal(4, meter.OverTake(take.AsSpan(1)).Count);
        Assert.Throws<ArgumentException>(() => meter.Measure(take));
    }

    // Source: definition of the vacil; listeners' values as printed by Osses et al. 2016. Tolerances as in FluctuationMeterTests.
    [Theory]
    [InlineData(4, 60, 1.0, 0.05)]
    [InlineData(8, 70, 1.30, 0.13)]
    [InlineData(32, 70, 0.06, 0.06)]
    public void Fluctuation_follows_listeners(double rateHz, double db, double vacil, double tolerance)
    {
        FluctuationMeter meter = new(Rate, 100);
        Assert.Equal((16_000, 1_600, Rate), (meter.WindowSamples, meter.HopSamples, meter.SampleRateHz));
        double whole = meter.Measure(Modulated(16_000, 1_000, rateHz, db));
        Assert.Equal(vacil, whole, tolerance);
        double[] specific = meter.SpecificVacilPerBark.ToArray();
        Assert.Equal(whole, 0.5 * specific.Sum(), 1e-9);
        Assert.True(whole < 0.2 || 0.5 * (1 + Array.IndexOf(specific, specific.Max())) is > 7 and < 12);
    }

    /// <summary>A window is faded in and out over 50 ms, so what lies at its very ends counts little. Source: Osses et al. 2016, their window.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(15_960)]
    public void A_knock_at_the_end_of_a_window_is_no_fluctuation(int at)
    {
        FluctuationMeter meter = new(Rate, 100);
        float[] steady = Modulated(16_000, 1_000, 4, 60, depth: 0);
        float[] knocked = [.. steady], amid = [.. steady];
        for (int i = 0; i < 40; i++)
        {
            knocked[at + i] *= 10;
            amid[8_000 + i] *= 10;
        }

        Assert.Equal(meter.Measure(steady), meter.Measure(knocked), 0.01);
        Assert.InRange(meter.Measure(amid), 1, 5);
    }

    /// <summary>Depth beyond 0.7 counts three tenths, and bands above 13 Bark count less, 0.78 at 16.5. Source: Osses et al. 2016.</summary>
    [Fact]
    public void Deep_swells_and_high_bands_count_less()
    {
        FluctuationMeter meter = new(Rate, 100);
        double sine = meter.Measure(Modulated(16_000, 1_000, 4, 60));
        Assert.Equal(0.78, meter.Measure(Modulated(16_000, 3_400, 4, 60)) / sine, 0.12);

        // A raised sine to the third power swells by 1.5, 0.6 and 0.1 of its mean, 1.14 as a root of mean squares; a plain one by 0.707.
        float[] deep = [.. Enumerable.Range(0, 16_000).Select(n => (double)n / Rate).Select(t => (float)(0.01 / Math.Sqrt(231.0 / 1_024) * Math.Pow(0.5 + (0.5 * Math.Sin(2 * Math.PI * 4 * t)), 3) * Math.Sin(2 * Math.PI * 1_000 * t)))];
        Assert.Equal(Math.Pow((0.7 + (0.3 * 0.444)) / (0.7 + (0.3 * 0.007)), 1.7), meter.Measure(deep) / sine, 0.25);
    }

    [Fact]
    public void Meters_have_their_limits()
    {
        foreach ((int rate, double full) in ((int, double)[])[(7_999, 100), (192_001, 100), (Rate, double.NaN), (Rate, double.PositiveInfinity)])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => new RoughnessMeter(rate, full));
            Assert.Throws<ArgumentOutOfRangeException>(() => new FluctuationMeter(rate, full));
        }

        Assert.Equal(192_000, new RoughnessMeter(192_000, 100).SampleRateHz);
        Assert.Throws<ArgumentOutOfRangeException>(() => FluctuationMeter.OfModulatedNoise(60, -0.1, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => FluctuationMeter.OfModulatedNoise(60, 1.1, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => FluctuationMeter.OfModulatedNoise(60, 1, 0));

        // Equation 10.2 of Fastl and Zwicker: (f / 5)^2 + 4 / f + 1.5 is 3.14 at 4 Hz; nothing at a fifth of the depth and at 20 dB.
        Assert.Equal(5.8 * 2 / 3.14, FluctuationMeter.OfModulatedNoise(60, 1, 4), 1e-9);
        Assert.Equal(5.8 * 2 * 0.375 / 3.14, FluctuationMeter.OfModulatedNoise(60, 0.5, 4), 1e-9);
        Assert.Equal(0, FluctuationMeter.OfModulatedNoise(60, 0.2, 4), 1e-12);
        Assert.Equal(0, FluctuationMeter.OfModulatedNoise(20, 1, 4), 1e-12);
        FluctuationMeter meter = new(Rate, 100);
        float[] take = [.. Modulated(16_000, 1_000, 4, 60), .. new float[1_600]];
        IReadOnlyList<double> values = meter.OverTake(take);
        Assert.Equal(2, values.Count);
        Assert.Equal(meter.Measure(take.AsSpan(1_600)), values[1], 9);
        Assert.Single(meter.OverTake(take.AsSpan(1)));
        Assert.Equal(0, meter.Measure(new float[16_000]));
        Assert.InRange(meter.Measure(Modulated(16_000, 1_000, 4, 60, depth: 0)), 0, 0.05);
        Assert.Throws<ArgumentException>(() => meter.Measure(take));
    }
}
