using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class TuningTests
{
    private const double A440Hz = 440.0;
    private static readonly Pitch BFlat1 = Pitch.Parse("Bb1");

    // Source: table of equal-tempered pitches in the Csound manual (misc/pitch), three decimals.
    [Theory]
    [InlineData("Bb0", 29.1352)]
    [InlineData("Bb1", 58.2705)]
    [InlineData("F2", 87.3071)]
    [InlineData("C4", 261.6256)]
    [InlineData("A4", 440.0)]
    [InlineData("Bb4", 466.1638)]
    public void Equal_temperament_meets_the_printed_table(string note, double hz) =>
        Assert.Equal(hz, Tuning.Equal.FrequencyHz(Pitch.Parse(note), A440Hz), 1e-4);

    // Exact mathematics: just intervals in cents.
    [Theory]
    [InlineData("Cb2", 111.7313)]
    [InlineData("C2", 203.9100)]
    [InlineData("Db2", 315.6413)]
    [InlineData("D2", 386.3137)]
    [InlineData("Eb2", 498.0450)]
    [InlineData("E2", 590.2237)]
    [InlineData("F2", 701.9550)]
    [InlineData("Gb2", 813.6863)]
    [InlineData("G2", 884.3587)]
    [InlineData("Ab2", 1017.5963)]
    [InlineData("A2", 1088.2687)]
    [InlineData("Bb2", 1200.0)]
    [InlineData("F1", 701.9550 - 1200)]
    public void Just_intervals_above_Bb_are_the_small_ratios(string note, double cents) =>
        Assert.Equal(cents, CentsAboveBFlat(Tuning.JustFrom(BFlat1), note), 5e-4);

    // Exact mathematics: a chain of pure fifths. Tone 203.910, limma 90.225, apotome 113.685, thirds 407.820 and 294.135.
    [Theory]
    [InlineData("F2", 701.955)]
    [InlineData("C2", 203.910)]
    [InlineData("Cb2", 90.225)]
    [InlineData("B1", 113.685)]
    [InlineData("D2", 407.820)]
    [InlineData("Db2", 294.135)]
    [InlineData("G2", 905.865)]
    public void Pythagorean_intervals_follow_the_chain_of_pure_fifths(string note, double cents) =>
        Assert.Equal(cents, CentsAboveBFlat(Tuning.PythagoreanFrom(BFlat1), note), 1e-3);

    // Exact mathematics: quarter-comma fifth 5^(1/4); the wolf lies between G# and Eb.
    [Theory]
    [InlineData("F2", 696.5784)]
    [InlineData("D2", 386.3137)]
    [InlineData("Db2", 310.2647)]
    [InlineData("Cb2", 117.1079)]
    [InlineData("B1", 76.0490)]
    public void Meantone_intervals_are_the_quarter_comma_ones(string note, double cents) =>
        Assert.Equal(cents, CentsAboveBFlat(Tuning.MeantoneFrom(BFlat1), note), 5e-4);

    [Fact]
    public void The_meantone_wolf_is_the_fifth_between_G_sharp_and_E_flat()
    {
        Tuning tuning = Tuning.MeantoneFrom(Pitch.Parse("C4"));
        double wolf = Cents.Between(tuning.FrequencyHz(Pitch.Parse("G#3"), A440Hz), tuning.FrequencyHz(Pitch.Parse("Eb4"), A440Hz));
        Assert.Equal(737.6373, wolf, 5e-4);
    }

    // Exact mathematics; that 415 and 442 are in use is from memory.
    [Theory]
    [InlineData(415.0, -101.2708)]
    [InlineData(442.0, 7.8515)]
    public void Another_A4_moves_every_note_alike(double a4Hz, double cents)
    {
        double moved = Cents.Between(Tuning.Equal.FrequencyHz(BFlat1, A440Hz), Tuning.Equal.FrequencyHz(BFlat1, a4Hz));
        Assert.Equal(cents, moved, 1e-3);
    }

    [Theory]
    [InlineData(399.9)]
    [InlineData(480.1)]
    [InlineData(double.NaN)]
    public void An_A4_outside_its_range_is_refused(double a4Hz) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Tuning.Equal.FrequencyHz(BFlat1, a4Hz));

    [Fact]
    public void An_own_tuning_reads_from_twelve_cents()
    {
        Assert.True(Tuning.TryParse("0,100,200,300,386.3,500,600,702,800,900,969,1100", BFlat1, out Tuning? own));
        Assert.Equal(386.3, CentsAboveBFlat(own, "D2"), 1e-6);
        Assert.Equal(969.0, CentsAboveBFlat(own, "Ab2"), 1e-6);
        Assert.False(Tuning.TryParse("0,100,200", BFlat1, out _));
        Assert.False(Tuning.TryParse("0,100,200,300,400,500,600,700,800,900,1000,NaN", BFlat1, out _));
        Assert.False(Tuning.TryParse("fair", BFlat1, out _));
    }

    [Fact]
    public void Names_read_in_any_case() =>
        Assert.All(["equal", "JUST", "Pythagorean", "meanTone"], name => Assert.True(Tuning.TryParse(name, BFlat1, out _)));

    private static double CentsAboveBFlat(Tuning tuning, string note) =>
        Cents.Between(tuning.FrequencyHz(BFlat1, A440Hz), tuning.FrequencyHz(Pitch.Parse(note), A440Hz));
}
