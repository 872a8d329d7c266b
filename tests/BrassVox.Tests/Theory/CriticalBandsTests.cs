using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class CriticalBandsTests
{
    // Source: formulas of Zwicker and Terhardt 1980, Traunmueller 1990, Glasberg and Moore 1990, evaluated
    // independently in double precision with another program; four decimals kept.
    [Theory]
    [InlineData(58.27, 0.5755, 0.5074, 100.25, 30.990, 2.1083)]
    [InlineData(100, 0.9867, 0.9557, 100.72, 35.494, 3.3696)]
    [InlineData(116.54, 1.1493, 1.1284, 100.98, 37.279, 3.8257)]
    [InlineData(250, 2.4448, 2.5028, 104.47, 51.685, 6.8622)]
    [InlineData(500, 4.7365, 4.9192, 117.26, 78.669, 10.7665)]
    [InlineData(1000, 8.5105, 8.5274, 162.22, 132.639, 15.6214)]
    [InlineData(2000, 13.1041, 13.0104, 300.77, 240.578, 21.1552)]
    [InlineData(4000, 17.2589, 17.4633, 685.42, 456.456, 27.1074)]
    public void Scales_and_widths_agree_with_the_published_formulas(
        double hz, double zwicker, double traunmueller, double bandwidth, double erb, double erbNumber)
    {
        Assert.Equal(zwicker, CriticalBands.Bark(hz), 1e-3);
        Assert.Equal(traunmueller, CriticalBands.BarkTraunmueller(hz), 1e-3);
        Assert.Equal(bandwidth, CriticalBands.BandwidthHz(hz), 1e-2);
        Assert.Equal(erb, CriticalBands.ErbHz(hz), 1e-3);
        Assert.Equal(erbNumber, CriticalBands.ErbNumber(hz), 1e-3);
    }

    // Source: band edges as printed by Zwicker 1961 (and in every later table, e.g. Daniel and Weber 1997).
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 100)]
    [InlineData(5, 510)]
    [InlineData(8, 920)]
    [InlineData(16, 3150)]
    [InlineData(24, 15500)]
    public void Band_edges_are_the_published_ones(int bark, double hz)
    {
        Assert.Equal(hz, CriticalBands.BarkEdgesHz[bark]);
        Assert.Equal(bark, CriticalBands.BarkByTable(hz), 1e-12);
    }

    // Source: the two closed formulas were fitted to the table; Zwicker and Terhardt 1980 state +-0.2 Bark
    // (from memory). The band centres are rounded to 10 Hz or more, hence 0.3.
    [Fact]
    public void Table_and_formula_agree_over_the_whole_range()
    {
        for (double hz = 0.0; hz <= 15_500.0; hz += 50.0)
        {
            Assert.InRange(CriticalBands.BarkByTable(hz) - CriticalBands.Bark(hz), -0.3, 0.3);
        }
    }

    [Fact]
    public void Negative_frequencies_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => CriticalBands.Bark(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => CriticalBands.ErbNumber(-1));
    }
}
