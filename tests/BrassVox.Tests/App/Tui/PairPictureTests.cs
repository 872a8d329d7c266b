using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>The picture of the pair against the pictures drawn before the program was written, cell by cell.</summary>
public sealed class PairPictureTests
{
    private const string Fifth =
        """
        PLAYED            1 Bb1       2 Bb2       3 F3        4 Bb3       5 D4      6 F4
              ├───────────■───────────■───────────■───────────■───────────■───────────■
        minus ━━━━━━◇S-P              ◇2S-P
        plus                                ◆P+S        ◆2P+S ◇P+2S
        meet              :::::::::::::           ≈           ::::::::::::::::::::::::≈
          /s                 29    29            0.2             29    29       58   0.4
              ├────────────━━━━━●─────────────────○─────────────────○─────────────────○
        SUNG                    1 F2              2 F3              3 C4            4 F4
        Hz    0           58          117         175         233         291        350
        """;

    private const string FifthAscii =
        """
        PLAYED            1 Bb1       2 Bb2       3 F3        4 Bb3       5 D4      6 F4
              |-----------P-----------P-----------P-----------P-----------P-----------P
        minus ======&S-P              &2S-P
        plus                                @P+S        @2P+S &P+2S
        meet              :::::::::::::           %           ::::::::::::::::::::::::%
          /s                 29    29            0.2             29    29       58   0.4
              |------------=====S-----------------s-----------------s-----------------s
        SUNG                    1 F2              2 F3              3 C4            4 F4
        Hz    0           58          117         175         233         291        350
        """;

    private const string WholeTone =
        """
        PLAYED            1 Bb2       2 Bb3       3 F4        4 Bb4       5 D5      6 F5
              ├───────────■───────────■───────────■───────────■───────────■───────────■
        minus ━━        ◇    ◇2S-P
        plus                           ◇P+S        ◆ ◇P+2S
        meet              ::          ::::        :::::       :::::::::::::
          /s              15           29           44           58    58
              ├────────────○─────────────○────────────○─────────────○──────────────────
        SUNG               1 C3          2 C4         3 G4          4 C5
        Hz    0           117         233         350         466         583        699
        """;

    private const string Octave =
        """
        PLAYED            1 F3        2 F4        3 C5        4 F5        5 A5      6 C6
              ├───────────■───────────■───────────■───────────■───────────■───────────■
        minus ━━━━━━━━━━━━◇S-P                    ◇2S-P
        plus                                      ◆P+S        ◆2P+S       ◆P+2S
        meet                          ≈                       ≈                       ≈
          /s                         1.6                     3.2                     4.9
              ├────────────━━━━━━━━━━━●───────────────────────●───────────────────────●
        SUNG                          1 F4                    2 F5                  3 C6
        Hz    0           175         349         524         698         873       1048
        """;

    private const string Glide =
        """
        PLAYED            1 Bb2       2 Bb3       3 F4        4 Bb4       5 D5        6 F5        7 Ab5       8 Bb5       9 C6
              ├───────────■───────────■───────────■───────────■───────────■───────────■───────────■───────────■───────────■
        minus ━━━━━━━━━━━◇ ◇3P-S   ◇2S-2P      ◇2S-P                  ◇3S-P
        plus                                    ◇P+S        ◆2P+S      ◇◇3P+S      ◇2P+2S    ◇P+3S
        meet                         ::                    ::::           :::::::::::::           :::::::::::::
          /s                         14                     27                75    41               62    54
              ├────────────━━━━━━━━━━○─────────────────────○──────────────────────○─────────────────────○──────────────────
        SUNG                         1 A3                  2 A4                   3 E5                  4 A5
        Hz    0           117         233         350         466         583         699         816         932         1049
        """;

    private static readonly double[] Solid = [0, 0, 0, 0, 0, 0, 0, 0, 0];
    private static readonly double[] Hollow = [-30, -30, -30, -30, -30, -30, -30, -30, -30];
    private static readonly double[] FirstSolid = [0, -30, -30, -30, -30, -30, -30, -30, -30];

    [Fact]
    public void The_tempered_fifth_is_drawn_as_designed()
    {
        PairSpectrum pair = Pair("Bb1", "F2", FirstSolid, [(-1, 1, -30), (2, -1, -31), (-1, 2, -30), (1, 1, 0), (2, 1, 0), (1, 2, -30)]);
        Assert.Equal(Fifth, Drawn(pair, 80, out _));
    }

    [Fact]
    public void Without_unicode_the_same_columns_carry_stand_ins()
    {
        PairSpectrum pair = Pair("Bb1", "F2", FirstSolid, [(-1, 1, -30), (2, -1, -31), (-1, 2, -30), (1, 1, 0), (2, 1, 0), (1, 2, -30)]);
        Drawn(pair, 80, out Canvas canvas);
        string[] rows = [.. Enumerable.Range(0, PairPicture.Rows).Select(y => canvas.Row(y, ascii: true))];
        Assert.Equal(FifthAscii, string.Join('\n', rows));
        Assert.All(string.Concat(rows), glyph => Assert.InRange(glyph, ' ', '~'));
    }

    [Fact]
    public void The_whole_tone_is_drawn_as_designed()
    {
        PairSpectrum pair = Pair("Bb2", "C3", [-30, -30, -30, -30], [(-1, 1, -60), (2, -1, -30), (-1, 2, -30), (1, 1, -30), (2, 1, 0), (1, 2, -30)], sungCents: 3.1, playedCents: -1);
        Assert.Equal(WholeTone, Drawn(pair, 80, out _, declaredPlayedHz: EqualTemperament.FrequencyHz(46, 440)));
    }

    [Fact]
    public void The_wide_octave_is_drawn_as_designed()
    {
        PairSpectrum pair = Pair("F3", "F4", Solid, [(-1, 1, -30), (-1, 2, -30), (1, 1, 0), (2, 1, 0), (1, 2, 0)], sungCents: 8);
        Assert.Equal(Octave, Drawn(pair, 80, out _));
    }

    [Fact]
    public void Four_resultant_orders_and_nine_partials_fit_120_columns()
    {
        // The cursor of the drawn take stands at 3.8 s: P has sunk 7 c, S is 1095 c above it.
        PairSpectrum pair = Pair(
            "Bb2", "A3", Hollow,
            [(-1, 1, -30), (3, -1, -30), (-2, 2, -30), (-1, 2, -30), (-1, 3, -30), (1, 1, -30), (2, 1, 0), (1, 2, -30), (3, 1, -30), (2, 2, -30), (1, 3, -30)],
            sungCents: -11.7, playedCents: -7);
        Assert.Equal(Glide, Drawn(pair, 120, out _, declaredPlayedHz: EqualTemperament.FrequencyHz(46, 440)));
    }

    [Fact]
    public void Wide_screens_give_each_P_24_columns_and_high_voices_half()
    {
        Assert.Equal((12, 6, 78), Scale(80, 58.27, 87.31));
        Assert.Equal((12, 9, 114), Scale(120, 58.27, 87.31));
        Assert.Equal((24, 8, 198), Scale(200, 58.27, 87.31));
        Assert.Equal((6, 12, 78), Scale(80, 58.27, 200));

        static (int, int, int) Scale(int width, double playedHz, double sungHz)
        {
            PairScale scale = PairScale.For(width, playedHz, sungHz);
            return (scale.CellsPerPlayed, scale.LastMultiple, scale.End);
        }
    }

    [Fact]
    public void Statement_8_marks_of_the_tempered_fifth_stand_in_their_columns()
    {
        Drawn(Pair("Bb1", "F2", FirstSolid, [(-1, 1, -30)]), 80, out Canvas canvas);
        Assert.Equal([18, 30, 42, 54, 66, 78], Columns(canvas, 1, Glyphs.PlayedStrong));
        Assert.Equal([24, 42, 60, 78], Columns(canvas, 6, Glyphs.SungStrong, Glyphs.SungWeak));
        Assert.Equal([12], Columns(canvas, 2, Glyphs.ResultantWeak));
        Assert.Equal(Glyphs.Beating, canvas[42, 4].Glyph);
        Assert.Equal("0.2", canvas.Row(5)[41..44]);
    }

    [Fact]
    public void Statement_9_in_a_just_fifth_the_meeting_is_tied()
    {
        Drawn(Pair("Bb1", "F2", FirstSolid, [], tuning: Tuning.JustFrom(Pitch.Parse("Bb1"))), 80, out Canvas canvas);
        Assert.Equal(Glyphs.Tie, canvas[42, 4].Glyph);
        Assert.Equal("0.0", canvas.Row(5)[41..44]);
    }

    [Fact]
    public void Statement_10_the_first_four_grains_of_a_whole_tone_rise_in_proportion()
    {
        PairSpectrum pair = Pair("Bb2", "C3", Hollow, []);
        Assert.Equal(["14", "29", "43", "57"], pair.Meetings().Take(4).Select(meeting => PairPicture.Rate(meeting.RateHz)));
    }

    [Fact]
    public void Statement_11_when_S_glides_from_fifth_to_octave_S_minus_P_never_falls_and_2P_minus_S_never_rises()
    {
        int difference = 0;
        int cubic = int.MaxValue;
        for (int cents = 700; cents < 1195; cents += 5)
        {
            PairSpectrum pair = Pair("Bb2", "Bb2", Hollow, [(-1, 1, 0), (2, -1, -5)], sungCents: cents);
            Drawn(pair, 80, out Canvas canvas);
            int[] columns = Columns(canvas, 2, Glyphs.ResultantStrong);
            Assert.True(columns[^1] >= difference && columns[0] <= cubic, $"{cents} c");
            (difference, cubic) = (columns[^1], columns[0]);
        }

        Assert.Equal(18, difference);
        Assert.Equal(6, cubic);
    }

    [Fact]
    public void In_fog_nothing_is_guessed()
    {
        PairSpectrum pair = Pair("F3", "F4", Solid, [(-1, 1, -30), (1, 1, 0)]) with { SungKnown = false };
        Drawn(pair, 80, out Canvas canvas);
        Assert.Equal(new string(Glyphs.Fog, 73), canvas.Row(6)[6..]);
        Assert.Equal("SUNG", canvas.Row(7));
        Assert.Equal("minus", canvas.Row(2));
        Assert.Equal("meet", canvas.Row(4));
    }

    private static int[] Columns(Canvas canvas, int y, params char[] glyphs) =>
        [.. Enumerable.Range(0, canvas.Width).Where(x => glyphs.Contains(canvas[x, y].Glyph))];

    private static PairSpectrum Pair(
        string played, string sung, double[] sungDb, (int Played, int Sung, double Db)[] resultants, double sungCents = 0, double playedCents = 0, Tuning? tuning = null)
    {
        double playedHz = Cents.Above((tuning ?? Tuning.Equal).FrequencyHz(Pitch.Parse(played), 440), playedCents);
        double sungHz = Cents.Above((tuning ?? Tuning.Equal).FrequencyHz(Pitch.Parse(sung), 440), sungCents);
        return new PairSpectrum(
            playedHz, sungHz, true, Solid, sungDb, [.. resultants.Select(line => new ResultantLevel(line.Played, line.Sung, line.Db))]);
    }

    private static string Drawn(PairSpectrum pair, int width, out Canvas canvas, double? declaredPlayedHz = null)
    {
        canvas = new Canvas(width, PairPicture.Rows);
        PairPicture.Draw(canvas, 0, PairScale.For(width, declaredPlayedHz ?? pair.PlayedHz, pair.SungHz), pair, hz => NearestNote.Of(hz, 440).Note.ToString());
        return canvas.ToString();
    }
}
