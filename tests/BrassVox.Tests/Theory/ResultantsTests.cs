using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class ResultantsTests
{
    private const double A440Hz = 440.0;
    private static readonly double BFlat1Hz = EqualTemperament.FrequencyHz(34, A440Hz);
    private static readonly double F2Hz = EqualTemperament.FrequencyHz(41, A440Hz);

    // Worked example Bb1 played and F2 sung, equal temperament: arithmetic done apart from this code, on pitches rounded to four decimals.
    [Theory]
    [InlineData(-1, 1, "S-P", 29.0367, "Bb0", -5.9)]
    [InlineData(2, -1, "2P-S", 29.2339, "Bb0", 5.9)]
    [InlineData(-2, 2, "2S-2P", 58.0733, "Bb1", -5.9)]
    [InlineData(1, 0, "P", 58.2705, "Bb1", 0.0)]
    [InlineData(0, 1, "S", 87.3071, "F2", 0.0)]
    [InlineData(3, -1, "3P-S", 87.5043, "F2", 3.9)]
    [InlineData(-1, 2, "2S-P", 116.3437, "Bb2", -2.9)]
    [InlineData(1, 1, "P+S", 145.5776, "D3", -14.9)]
    [InlineData(0, 2, "2S", 174.6141, "F3", 0.0)]
    [InlineData(2, 1, "2P+S", 203.8480, "Ab3", -32.0)]
    [InlineData(1, 2, "P+2S", 232.8847, "Bb3", -1.5)]
    [InlineData(2, 2, "2P+2S", 291.1552, "D4", -14.9)]
    public void The_fifth_on_Bb1_makes_the_lines_of_the_worked_example(
        int played, int sung, string name, double hz, string note, double cents)
    {
        Resultant line = Assert.Single(Resultants.Of(BFlat1Hz, F2Hz, 4), r => r.Played == played && r.Sung == sung);
        NearestNote nearest = NearestNote.Of(line.FrequencyHz, A440Hz);
        Assert.Equal(name, line.Name);
        Assert.Equal(hz, line.FrequencyHz, 1e-3);
        Assert.Equal(note, nearest.Note.ToString());
        Assert.Equal(cents, nearest.Cents, 0.06);
    }

    // Source: H. Helmholtz, On the Sensations of Tone, ch. VII: first difference and summation tones of just intervals
    // (that he lists them is from memory; the ratios are arithmetic). Cents are counted from the lower tone.
    [Theory]
    [InlineData(1, 2, 0.0, 1901.955)]
    [InlineData(2, 3, -1200.0, 1586.314)]
    [InlineData(3, 4, -1901.955, 1466.871)]
    [InlineData(4, 5, -2400.0, 1403.910)]
    [InlineData(5, 6, -2786.314, 1365.004)]
    [InlineData(3, 5, -701.955, 1698.045)]
    [InlineData(5, 8, -884.359, 1654.214)]
    [InlineData(2, 5, 701.955, 2168.826)]
    [InlineData(1, 3, 1200.0, 2400.0)]
    public void Difference_and_sum_of_just_intervals_lie_where_the_textbook_puts_them(
        int lower, int upper, double differenceCents, double sumCents)
    {
        const double RootHz = 29.1352;
        IReadOnlyList<Resultant> lines = Resultants.Of(lower * RootHz, upper * RootHz, 2);
        Assert.Equal(differenceCents, CentsOf(lines, -1, 1, lower * RootHz), 1e-3);
        Assert.Equal(sumCents, CentsOf(lines, 1, 1, lower * RootHz), 1e-3);
    }

    [Fact]
    public void In_a_just_fifth_every_line_is_a_harmonic_of_one_root()
    {
        const double RootHz = 29.1352;
        foreach (Resultant line in Resultants.Of(2 * RootHz, 3 * RootHz, 4))
        {
            double multiple = line.FrequencyHz / RootHz;
            Assert.Equal(Math.Round(multiple), multiple, 1e-9);
            Assert.InRange(Math.Round(multiple), 1, 12);
        }
    }

    [Fact]
    public void Every_combination_to_the_order_is_listed_once_and_above_zero()
    {
        IReadOnlyList<Resultant> lines = Resultants.Of(100, 141.4, 5);
        Assert.All(lines, line => Assert.True(line.FrequencyHz > 0 && line.Order is >= 1 and <= 5));
        Assert.Equal(lines.Count, lines.DistinctBy(line => (line.Played, line.Sung)).Count());

        // Of the lattice points with |m|+|n| from 1 to N there are 2N(N+1); half of them, one of each sign, lie above 0 Hz.
        Assert.Equal(5 * 6, lines.Count);
        Assert.Equal(lines.OrderBy(line => line.FrequencyHz), lines);
    }

    [Fact]
    public void A_line_on_zero_does_not_sound() =>
        Assert.DoesNotContain(Resultants.Of(100, 100, 2), line => line is { Played: 1, Sung: -1 } or { Played: -1, Sung: 1 });

    [Theory]
    [InlineData(0, 100, 2)]
    [InlineData(100, -1, 2)]
    [InlineData(100, 100, 0)]
    [InlineData(100, 100, 13)]
    public void What_is_no_pair_is_refused(double playedHz, double sungHz, int order) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Resultants.Of(playedHz, sungHz, order));

    private static double CentsOf(IReadOnlyList<Resultant> lines, int played, int sung, double aboveHz) =>
        Cents.Between(aboveHz, lines.Single(line => line.Played == played && line.Sung == sung).FrequencyHz);
}
