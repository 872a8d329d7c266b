using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

/// <summary>What each function takes and refuses, and what holds exactly at a limit. Limits are those that the functions' own descriptions state.</summary>
public sealed class LimitsTests
{
    private static readonly Pitch BFlat1 = Pitch.Parse("Bb1");

    [Theory]
    [InlineData(0, 100, 4, 12)]
    [InlineData(100, 0, 4, 12)]
    [InlineData(-100, 100, 4, 12)]
    [InlineData(100, 100, 0, 12)]
    [InlineData(100, 100, 4, -1)]
    public void Beats_of_what_is_no_pair_are_refused(double playedHz, double sungHz, int highest, double fastest) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BeatingPairs.Of(playedHz, sungHz, highest, fastest));

    // Exact mathematics: 100 Hz and 106 Hz; k-th with k-th 6 k Hz apart, at 103 k Hz.
    [Fact]
    public void Pairs_stand_in_order_of_frequency_at_the_middle_and_the_limit_itself_is_listed()
    {
        IReadOnlyList<BeatingPair> pairs = BeatingPairs.Of(100, 106, 2, 12);
        Assert.Equal([new BeatingPair(1, 1, 6, 103), new BeatingPair(2, 2, 12, 206)], pairs);

        // With a limit above P the fields of neighbouring played harmonics overlap: the order is of frequency, not of harmonics.
        IReadOnlyList<BeatingPair> crossing = BeatingPairs.Of(100, 30, 12, 150);
        Assert.Equal(crossing.OrderBy(pair => pair.FrequencyHz).Select(pair => pair.FrequencyHz), crossing.Select(pair => pair.FrequencyHz));
        Assert.Contains(crossing.Zip(crossing.Skip(1)), next => next.First.PlayedHarmonic > next.Second.PlayedHarmonic);
        Assert.Empty(BeatingPairs.Of(100, 106.5, 1, 6));
        Assert.Single(BeatingPairs.Of(106, 100, 1, 6));
    }

    // The three limits are the glossary's: still under 0.1 a second, beating to 12, grain within one ERB.
    [Theory]
    [InlineData(0, Meeting.Still)]
    [InlineData(0.09375, Meeting.Still)]
    [InlineData(0.125, Meeting.Beating)]
    [InlineData(12, Meeting.Beating)]
    [InlineData(12.5, Meeting.Grain)]
    public void Two_partials_meet_as_the_glossary_says(double apartHz, Meeting meeting) =>
        Assert.Equal(meeting, BeatingPairs.Classify(1024, 1024 + apartHz));

    // Source: Glasberg and Moore 1990: ERB at the middle of the two, 24.7 (4.37 f/kHz + 1): 132.639 Hz at 1000 Hz.
    [Theory]
    [InlineData(132.6, Meeting.Grain)]
    [InlineData(132.7, Meeting.Apart)]
    public void Grain_ends_where_one_ERB_ends(double apartHz, Meeting meeting) =>
        Assert.Equal(meeting, BeatingPairs.Classify(1000 - (apartHz / 2), 1000 + (apartHz / 2)));

    [Fact]
    public void No_band_lies_below_zero()
    {
        Assert.All<Func<double, double>>(
            [CriticalBands.Bark, CriticalBands.BarkTraunmueller, CriticalBands.BarkByTable, CriticalBands.BandwidthHz, CriticalBands.ErbHz, CriticalBands.ErbNumber],
            scale => Assert.Throws<ArgumentOutOfRangeException>(() => scale(-0.001)));
    }

    // Source: Traunmueller 1990 with its correction above 20.1 Bark (from memory, as in the code): 10 kHz is 26.81*10000/11960 - 0.53 = 21.886, + 0.22 * 1.786.
    [Fact]
    public void The_upper_correction_of_Traunmuellers_scale_raises_it() =>
        Assert.Equal(22.2794, CriticalBands.BarkTraunmueller(10_000), 1e-3);

    // Source: Daniel and Weber 1997, the printed table: centre i lies at i + 0.5 Bark; nothing lies above 24.
    [Fact]
    public void The_printed_centres_lie_at_half_barks()
    {
        for (int band = 0; band < 24; band++)
        {
            Assert.Equal(band + 0.5, CriticalBands.BarkByTable(CriticalBands.BarkCentresHz[band]), 1e-12);
            Assert.Equal(band + 1, CriticalBands.BarkByTable(CriticalBands.BarkEdgesHz[band + 1]), 1e-12);
        }

        Assert.Equal(24, CriticalBands.BarkByTable(20_000));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-440)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_no_frequency_has_no_note(double hz) =>
        Assert.Contains("finite number of Hz above 0", Assert.Throws<ArgumentOutOfRangeException>(() => EqualTemperament.MidiNumber(hz, 440)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(400, true)]
    [InlineData(480, true)]
    [InlineData(399.99, false)]
    [InlineData(480.01, false)]
    public void A4_lies_from_400_to_480(double a4Hz, bool taken)
    {
        if (taken)
        {
            Assert.Equal(69, EqualTemperament.MidiNumber(a4Hz, a4Hz), 1e-12);
        }
        else
        {
            Assert.Contains("400 to 480", Assert.Throws<ArgumentOutOfRangeException>(() => EqualTemperament.MidiNumber(440, a4Hz)).Message, StringComparison.Ordinal);
        }
    }

    // Common practice, no source: the trade's names of the distances up to a twelfth.
    [Fact]
    public void Every_distance_has_the_trades_name()
    {
        string[] names = ["unison", "semitone", "whole tone", "minor third", "major third", "fourth", "tritone", "fifth", "minor sixth", "major sixth", "minor seventh",
            "major seventh", "octave", "minor ninth", "major ninth", "minor tenth", "major tenth", "eleventh", "augmented eleventh", "twelfth"];
        for (int semitones = 0; semitones < names.Length; semitones++)
        {
            Assert.Equal(names[semitones], IntervalName.Of((100 * semitones) + 49));
            Assert.Equal(names[semitones], IntervalName.Of((-100 * semitones) - 49));
        }

        Assert.Equal("two octaves", IntervalName.Of(2400));
        Assert.Equal("octave and a minor sixth", IntervalName.Of(2000));
        Assert.Equal("two octaves and a fifth", IntervalName.Of(3100));
        Assert.Equal("three octaves", IntervalName.Of(-3600));
        Assert.Equal("11 octaves and a semitone", IntervalName.Of(13300));
    }

    // Exact mathematics.
    [Theory]
    [InlineData(12000, "1024:1")]
    [InlineData(24000, "1048576:1")]
    [InlineData(24000.5, null)]
    [InlineData(double.NaN, null)]
    [InlineData(200, "9:8")]
    [InlineData(300, "6:5")]
    [InlineData(500, "4:3")]
    [InlineData(600, "7:5")]
    [InlineData(800, "8:5")]
    [InlineData(1017, "9:5")]
    [InlineData(1100, "15:8")]
    [InlineData(1400, "9:4")]
    [InlineData(2000, "16:5")]
    public void Just_intervals_keep_their_octaves_up_to_twenty(double cents, string? ratio)
    {
        if (ratio is null)
        {
            Assert.Contains("24000", Assert.Throws<ArgumentOutOfRangeException>(() => JustInterval.NearestTo(cents)).Message, StringComparison.Ordinal);
        }
        else
        {
            Assert.Equal(ratio, JustInterval.NearestTo(cents).ToString());
        }
    }

    // What a resultant is called follows from m and n alone.
    [Theory]
    [InlineData(1, 0, true, false, 1)]
    [InlineData(0, 3, true, false, 3)]
    [InlineData(1, 1, false, false, 2)]
    [InlineData(2, 3, false, false, 5)]
    [InlineData(-1, 1, false, true, 2)]
    [InlineData(2, -1, false, true, 3)]
    public void A_line_is_a_harmonic_a_sum_or_a_difference(int played, int sung, bool harmonic, bool difference, int order)
    {
        Resultant line = Resultants.Of(100, 141.4, 5).Single(one => one.Played == played && one.Sung == sung);
        Assert.Equal(harmonic, line.IsHarmonic);
        Assert.Equal(difference, line.IsDifference);
        Assert.Equal(order, line.Order);
    }

    [Fact]
    public void A_curve_of_what_is_no_pair_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoughnessCurve(0, [1], [1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoughnessCurve(100, [1], [1], 100, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RoughnessCurve(100, [1], [1], 0, 100, 0));
        Assert.Contains("at least one harmonic", Assert.Throws<ArgumentException>(() => new RoughnessCurve(100, [1], [])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_tuning_bears_its_name_and_an_own_one_has_twelve_values_in_range()
    {
        Assert.Equal("equal", Tuning.Equal.Name);
        Assert.Equal("just", Tuning.JustFrom(BFlat1).Name);
        Assert.Equal("pythagorean", Tuning.PythagoreanFrom(BFlat1).Name);
        Assert.Equal("meantone", Tuning.MeantoneFrom(BFlat1).Name);
        double[] values = [0, 100, 200, 300, 400, 500, 600, 700, 800, 900, 1000, 1100];
        Assert.Equal("own", Tuning.OwnFrom(BFlat1, values).Name);
        foreach ((double value, bool taken) in new[] { (-200.0, true), (1400.0, true), (-200.5, false), (1400.5, false), (double.NaN, false) })
        {
            double[] own = [.. values];
            own[5] = value;
            string text = string.Join(",", own.Select(cents => cents.ToString(System.Globalization.CultureInfo.InvariantCulture)));
            Assert.Equal(taken, Tuning.TryParse(text, BFlat1, out _));
            if (!taken)
            {
                Assert.Contains("twelve values", Assert.Throws<ArgumentException>(() => Tuning.OwnFrom(BFlat1, own)).Message, StringComparison.Ordinal);
            }
        }

        Assert.Throws<ArgumentException>(() => Tuning.OwnFrom(BFlat1, values[..11]));
        Assert.Throws<ArgumentException>(() => Tuning.OwnFrom(BFlat1, [.. values, 1200]));
    }
}
