using BrassVox.Practice.Judging;
using Xunit;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Offset, line, vibrato and wander of points that were drawn. No outside source: the truth is the drawing.</summary>
public sealed class PitchLineTests
{
    private static PitchLine? Fit(int count, Func<double, double> cents, double beyond = 0, double hop = 0.01) =>
        PitchLine.Of([.. Enumerable.Range(0, count).Select(i => (i * hop, cents(i * hop)))], beyond);

    [Fact]
    public void A_straight_rise_is_drift_to_the_ends_of_the_tone_and_no_wander()
    {
        // 20 c a second over 0.99 s of points, and 0.3 s more of the tone that was not counted: 20 x 1.29 = 25.8 c. Its middle lies at 10 + 20 x 0.495.
        PitchLine fit = Fit(100, t => 10 + (20 * t), beyond: 0.3)!;
        Assert.Equal(25.8, fit.DriftCents, 6);
        Assert.Equal(19.9, fit.OffsetCents, 6);
        Assert.Equal(0, fit.SpreadCents, 6);
        Assert.Null(fit.VibratoCents);
        Assert.Equal(-25.8, Fit(100, t => 10 - (20 * t), beyond: 0.3)!.DriftCents, 6);
    }

    [Fact]
    public void Too_few_or_too_short_says_nothing()
    {
        Assert.Null(Fit(9, _ => 5, hop: 0.02));
        Assert.NotNull(Fit(10, _ => 5, hop: 0.02));
        Assert.Null(Fit(10, _ => 5, hop: 0.009));
    }

    [Theory]
    [InlineData(3.5, true)]
    [InlineData(2.5, false)]
    public void Under_3_cents_a_regular_wobble_is_wander(double cents, bool isVibrato)
    {
        // Eleven whole cycles in two seconds; a sine of amplitude a has a standard deviation of a / sqrt 2.
        PitchLine fit = Fit(200, t => cents * Math.Sin(2 * Math.PI * 5.5 * t))!;
        Assert.Equal(isVibrato, fit.VibratoCents is not null);
        Assert.Equal(isVibrato ? 0 : cents / Math.Sqrt(2), fit.SpreadCents, 0.2);
    }

    [Theory]
    [InlineData(8, true)]
    [InlineData(13, false)]
    public void Vibrato_is_at_least_half_of_what_moves_and_the_rest_is_wander(double other, bool isVibrato)
    {
        // Shares of the power: 100 of 100 + 64, and 100 of 100 + 169.
        PitchLine fit = Fit(200, t => (10 * Math.Sin(2 * Math.PI * 5.5 * t)) + (other * Math.Sin(2 * Math.PI * 12 * t)))!;
        Assert.Equal(isVibrato, fit.VibratoPerSecond is not null);
        Assert.Equal(Math.Sqrt(((isVibrato ? 0 : 100) + (other * other)) / 2), fit.SpreadCents, 0.4);
    }

    [Theory]
    [InlineData(2.5, false)]
    [InlineData(3.2, true)]
    [InlineData(8.8, true)]
    [InlineData(10, false)]
    public void Vibrato_runs_at_3_to_9_a_second(double hz, bool isVibrato)
    {
        PitchLine fit = Fit(400, t => 20 * Math.Cos(2 * Math.PI * hz * t))!;
        Assert.Equal(isVibrato, fit.VibratoPerSecond is not null);
        if (isVibrato)
        {
            Assert.Equal(hz, fit.VibratoPerSecond!.Value, 0.03);
            Assert.Equal(20, fit.VibratoCents!.Value, 0.5);
        }
    }

    /// <summary>Three swings of the fastest, 9 a second, take a third of a second.</summary>
    [Theory]
    [InlineData(33, false)]
    [InlineData(37, true)]
    public void Vibrato_takes_three_swings_to_be_told(int hundredths, bool isVibrato) =>
        Assert.Equal(isVibrato, Fit(hundredths, t => 20 * Math.Cos(2 * Math.PI * 8.8 * t))!.VibratoCents is not null);

    [Fact]
    public void A_vibrato_is_as_much_wider_than_its_windows_show_as_its_sound_tells() =>
        Assert.Equal(30, PitchLine.Of([.. Enumerable.Range(0, 200).Select(i => (i * 0.01, 20 * Math.Sin(2 * Math.PI * 5.5 * i * 0.01)))], 0, _ => 1.5)!.VibratoCents!.Value, 0.5);

    [Theory]
    [InlineData(3, new[] { 9.0, 1, 3 })]
    [InlineData(2.5, new[] { 9.0, 1, 3, 2 })]
    public void The_median_is_the_middle_or_between_the_middle_two(double median, double[] values) => Assert.Equal(median, Median.Of(values));

    [Fact]
    public void Nothing_has_no_median() => Assert.Contains("at least one value", Assert.Throws<ArgumentException>(() => Median.Of([])).Message, StringComparison.Ordinal);
}
