using BrassVox.Analysis.Loudness;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>The published sequences of a minute and more, and the filters' gain at low notes: what takes too long for each of a thousand mutants.</summary>
public sealed class LoudnessSequenceTests
{
    private const int Rate = 48_000;

    // Source: magnitude of the published filters, worked by another program: the tuba's low notes count less.
    [Theory]
    [InlineData(29.135, -8.621)]
    [InlineData(58.27, -3.048)]
    [InlineData(116.54, -0.838)]
    [InlineData(997, 0.691)]
    [InlineData(2000, 3.071)]
    public void Gain_at_a_pitch(double hz, double db)
    {
        var filter = new KWeighting(Rate);
        double inPower = 0, outPower = 0;
        for (int n = 0; n < 3 * Rate; n++)
        {
            double x = Math.Sin(2 * Math.PI * hz * n / Rate);
            double y = filter.Next(x);
            double weight = n >= Rate ? Math.Pow(Math.Sin(Math.PI * (n - Rate) / (2.0 * Rate)), 2) : 0;
            inPower += weight * x * x;
            outPower += weight * y * y;
        }

        Assert.Equal(db, 10 * Math.Log10(outPower / inPower), 0.002);
    }

    // Source: EBU Tech 3341, cases 1 to 5 (stereo 1 kHz sine, levels in dBFS and seconds as printed; +-0.1).
    [Theory]
    [InlineData(new double[] { -23, 20 }, -23.0)]
    [InlineData(new double[] { -33, 20 }, -33.0)]
    [InlineData(new double[] { -36, 10, -23, 60, -36, 10 }, -23.0)]
    [InlineData(new double[] { -72, 10, -36, 10, -23, 60, -36, 10, -72, 10 }, -23.0)]
    [InlineData(new double[] { -26, 20, -20, 20.1, -26, 20 }, -23.0)]
    public void Integrated_loudness_of_the_published_sequences(double[] levelsAndSeconds, double lufs)
    {
        LoudnessMeter meter = LoudnessTests.Meter(8_000, 2, Parts(levelsAndSeconds));
        Assert.Equal(lufs, meter.IntegratedLufs, 0.1);
    }

    // Source: EBU Tech 3342, cases 1 to 4 (stereo 1 kHz sine; +-1 LU).
    [Theory]
    [InlineData(new double[] { -20, 20, -30, 20 }, 10)]
    [InlineData(new double[] { -20, 20, -15, 20 }, 5)]
    [InlineData(new double[] { -40, 20, -20, 20 }, 20)]
    [InlineData(new double[] { -50, 20, -35, 20, -20, 20, -35, 20, -50, 20 }, 15)]
    public void Loudness_range_of_the_published_sequences(double[] levelsAndSeconds, double lu) =>
        Assert.Equal(lu, LoudnessTests.Meter(8_000, 2, Parts(levelsAndSeconds)).RangeLu, 1.0);

    private static (double Seconds, double Db)[] Parts(double[] levelsAndSeconds) =>
        [.. levelsAndSeconds.Chunk(2).Select(pair => (pair[1], pair[0]))];
}
