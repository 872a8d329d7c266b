using BrassVox.Analysis.Bounds;
using Xunit;

namespace BrassVox.Tests.Analysis;

public sealed class CramerRaoTests
{
    // Source: Rife and Boorstyn 1974, formula worked by another program (48 kHz, 20 dB).
    [Theory]
    [InlineData(2_400, 0.022508)]
    [InlineData(4_800, 0.0079577)]
    [InlineData(9_600, 0.0028135)]
    [InlineData(48_000, 0.00025165)]
    public void One_sinusoid(int samples, double hz) =>
        Assert.Equal(hz, CramerRao.SinusoidHz(48_000, samples, 20), 1e-6);

    // Source: the same formula; two far lines do not disturb one another.
    [Fact]
    public void Two_far_lines_are_bounded_as_one_is()
    {
        PairBound bound = CramerRao.PairHz(Line(400, 1, 0.3), Line(1700, 0.5, 1.1), 0.1, 8_000, 800);
        double loud = CramerRao.SinusoidHz(8_000, 800, 10 * Math.Log10(0.5 / 0.01));
        Assert.Equal(loud, bound.PlayedHz, 0.01 * loud);
        Assert.Equal(2 * loud, bound.SungHz, 0.02 * loud);
    }

    // Source: bound for a harmonic tone, Christensen and Jakobsson 2009: the k-th harmonic counts k^2 times (from memory).
    [Fact]
    public void Harmonics_sharpen_the_bound_by_the_square_of_their_number()
    {
        var tone = new HarmonicTone(116.54, [1, 0.5, 0.25], [0.1, 2, 1]);
        PairBound bound = CramerRao.PairHz(tone, Line(1900, 1, 0), 0.1, 8_000, 1_280);
        double weighted = 0.5 * (1 + (4 * 0.25) + (9 * 0.0625));
        double expected = CramerRao.SinusoidHz(8_000, 1_280, 10 * Math.Log10(weighted / 0.01));
        Assert.Equal(expected, bound.PlayedHz, 0.02 * expected);
    }

    // Source: two close lines, the bound grows as their distance to the power -2 to -4, as their phases lie (Dilaveroglu).
    [Theory]
    [InlineData(0)]
    [InlineData(0.7)]
    [InlineData(1.5707963)]
    public void Close_lines_are_bounded_ever_more_weakly(double phase)
    {
        double At(double apartHz) => CramerRao.PairHz(Line(400, 1, 0), Line(400 + apartHz, 1, phase), 0.1, 8_000, 800).PlayedHz;
        Assert.InRange(At(1) / At(2), 1.9, 16);
        Assert.InRange(At(0.5) / At(1), 1.9, 16);
        Assert.Equal(double.PositiveInfinity, At(0));
    }

    [Fact]
    public void Exactly_in_tune_the_bound_is_that_of_a_pair_ever_so_little_out()
    {
        var played = new HarmonicTone(100, [1, 1, 1, 1], [0, 1, 2, 3]);
        PairBound At(double hz) => CramerRao.PairHz(played, new HarmonicTone(hz, [1, 1], [1, 2.5]), 0.1, 8_000, 1_280);

        Assert.Equal(double.PositiveInfinity, At(100).SungHz);
        Assert.Equal(double.PositiveInfinity, At(200).SungHz);
        Assert.True(double.IsFinite(At(200).PlayedHz));
        Assert.Equal(At(150.01).SungHz, At(150).SungHz, 0.01 * At(150.01).SungHz);
        Assert.Equal(At(150.01).PlayedHz, At(150).PlayedHz, 0.01 * At(150.01).PlayedHz);
    }

    private static HarmonicTone Line(double hz, double amplitude, double phase) => new(hz, [amplitude], [phase]);
}
