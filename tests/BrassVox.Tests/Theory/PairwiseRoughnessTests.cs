using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class PairwiseRoughnessTests
{
    // Source: Sethares 1993 (constants of his later programs), worked by hand and by another program.
    [Theory]
    [InlineData(440, 460, 0.87303)]
    [InlineData(460, 440, 0.87303)]
    [InlineData(100, 120, 0.89823)]
    public void Sethares_worked_values(double first, double second, double expected) =>
        Assert.Equal(expected, PairwiseRoughness.Sethares(new Partial(first, 1), new Partial(second, 1)), 1e-4);

    // Source: Vassilakis 2001, equation 6.23, worked by another program.
    [Theory]
    [InlineData(1.0, 0.087773)]
    [InlineData(0.5, 0.023207)]
    [InlineData(0.0, 0.0)]
    public void Vassilakis_worked_values(double amplitude, double expected) =>
        Assert.Equal(expected, PairwiseRoughness.Vassilakis(new Partial(440, 1), new Partial(460, amplitude)), 1e-5);

    // Source: maximum of Sethares' curve found by a scan with another program.
    [Theory]
    [InlineData(58.27, 18.52)]
    [InlineData(116.54, 19.62)]
    [InlineData(250, 22.16)]
    [InlineData(440, 25.77)]
    [InlineData(1000, 36.41)]
    public void Roughest_distance_of_two_pure_tones(double lower, double expected) =>
        Assert.Equal(expected, PairwiseRoughness.RoughestDistanceHz(lower), 0.01);

    // Source: Sethares prints these nine smoothest ratios for a tone of seven harmonics (list from memory); the
    // values at given ratios come from another program.
    [Fact]
    public void Curve_of_seven_harmonics_is_smoothest_at_the_published_ratios()
    {
        double[] amplitudes = Falling(7, 0.88);
        var curve = new RoughnessCurve(500, amplitudes, amplitudes, 30, 1230, 1);
        double[] expected = [7 / 6.0, 6 / 5.0, 5 / 4.0, 4 / 3.0, 7 / 5.0, 3 / 2.0, 5 / 3.0, 7 / 4.0, 2];

        double[] found = [.. curve.Minima.Select(p => Math.Pow(2, p.Cents / 1200))];

        Assert.Equal(expected.Length, found.Length);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], found[i], 0.002);
        }
    }

    // Source: Sethares' formula over all pairs of both tones, worked by another program.
    [Theory]
    [InlineData(500, 1.0, 0.0908)]
    [InlineData(500, 16 / 15.0, 3.3233)]
    [InlineData(500, 5 / 4.0, 1.2495)]
    [InlineData(500, 3 / 2.0, 0.4481)]
    [InlineData(500, 2.0, 0.0783)]
    public void Curve_of_seven_harmonics_at_given_ratios(double hz, double ratio, double expected)
    {
        double[] amplitudes = Falling(7, 0.88);
        Assert.Equal(expected, new RoughnessCurve(hz, amplitudes, amplitudes).At(1200 * Math.Log2(ratio)), 1e-3);
    }

    // Source: as above, six harmonics on Bb2: a pure major third is rougher in the tuba's register than an octave higher.
    [Theory]
    [InlineData(1.0, 1.4461)]
    [InlineData(9 / 8.0, 5.1499)]
    [InlineData(5 / 4.0, 3.9325)]
    [InlineData(2.0, 0.8199)]
    public void Curve_on_b_flat_2(double ratio, double expected)
    {
        double[] amplitudes = Falling(6, 0.88);
        Assert.Equal(expected, new RoughnessCurve(116.54, amplitudes, amplitudes).At(1200 * Math.Log2(ratio)), 1e-3);
    }

    [Fact]
    public void Points_and_placed_pair_lie_on_one_curve()
    {
        var curve = new RoughnessCurve(116.54, [1, 0.5], [0.7], -100, 1300, 50, RoughnessModel.Vassilakis);

        Assert.Equal(29, curve.Points.Count);
        Assert.Equal(-100, curve.Points[0].Cents);
        Assert.Equal(1300, curve.Points[^1].Cents);
        Assert.All(curve.Points, p => Assert.Equal(curve.At(p.Cents), p.Roughness));
    }

    [Fact]
    public void Bad_arguments_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => PairwiseRoughness.Sethares(new Partial(0, 1), new Partial(1, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => PairwiseRoughness.RoughestDistanceHz(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoughnessCurve(100, [1], [1], 0, 1200, 1e-6));
        Assert.Throws<ArgumentException>(() => new RoughnessCurve(100, [], [1]));
    }

    private static double[] Falling(int count, double factor) =>
        [.. Enumerable.Range(0, count).Select(k => Math.Pow(factor, k))];
}
