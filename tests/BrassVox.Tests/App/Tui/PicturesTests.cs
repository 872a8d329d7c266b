using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Terminal;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>The smaller pictures: swell, approach, what one can tell, large signs, what a terminal can show.</summary>
public sealed class PicturesTests
{
    [Theory]
    [InlineData(1.0, 57)]
    [InlineData(0.5, 29)]
    [InlineData(0.0, 1)]
    public void The_swell_grows_from_its_middle(double amount, int length)
    {
        var canvas = new Canvas(80, 1);
        SwellBar.Draw(canvas, 0, new PartialMeeting(3, 2, 1, Meeting.Beating), amount);
        string row = canvas.Row(0);
        Assert.Equal(length, row.Count(glyph => glyph == Glyphs.Gap));
        Assert.Equal(42, (row.IndexOf(Glyphs.Gap, StringComparison.Ordinal) + row.LastIndexOf(Glyphs.Gap)) / 2);
        Assert.Equal((13, 71), (row.IndexOf(Glyphs.Tie, StringComparison.Ordinal), row.LastIndexOf(Glyphs.Tie)));
    }

    /// <summary>A sign beyond U+FFFF has a stand-in in one cell; a sign of double width fills two; a mark upon another none.</summary>
    [Fact]
    public void Signs_of_every_script_can_be_written()
    {
        var canvas = new Canvas(20, 1);
        Assert.Equal(13, canvas.Write(0, 0, "Largo \U0001D11E a\u0301 \u97F3x"));
        Assert.Equal("Largo \uFFFD a \u97F3x", canvas.Row(0));
        Assert.Equal("Largo ? a ??x", canvas.Row(0, ascii: true));
        Assert.Equal((Cell.Covered, 'x'), (canvas[11, 0].Glyph, canvas[12, 0].Glyph));
        canvas.Put(0, 0, '\uD83C');
        Assert.Equal(Glyphs.NoSign, canvas[0, 0].Glyph);
    }

    [Fact]
    public void Over_4_a_second_the_swell_stands_dotted_as_designed()
    {
        var canvas = new Canvas(80, 1);
        SwellBar.Draw(canvas, 0, new PartialMeeting(1, 1, 15, Meeting.Grain), 0.2);
        Assert.Equal("SWELL        │           :::::::::::::::::::::::::::::::::::           │", canvas.Row(0));
    }

    [Theory]
    [InlineData(0, 0, 0, 1)]
    [InlineData(0, 0, 0.5, 0)]
    [InlineData(0, -6.0206, 0.5, 1.0 / 3)] // amplitudes 1 and 1/2: from 3/2 down to 1/2
    public void The_envelope_of_two_partials_is_that_of_their_phasors(double firstDb, double secondDb, double cycles, double expected) =>
        Assert.Equal(expected, SwellBar.Envelope(firstDb, secondDb, cycles), 1e-4);

    [Fact]
    public void The_wide_octave_approaches_as_designed()
    {
        // F3 under an octave 8 c wide: 1.6 beats a second, 9 columns for one.
        double playedHz = EqualTemperament.FrequencyHz(53, 440);
        NearestStill near = NearestStill.Of(playedHz, Cents.Above(2 * playedHz, 8));
        Assert.Equal((2, 1), (near.Played, near.Sung));
        Assert.Equal("8 c down", near.Way());
        var canvas = new Canvas(80, ApproachPanel.Rows);
        ApproachPanel.Draw(canvas, 0, near, "S");
        Assert.Equal("                            2:1           4:2            6:3", canvas.Row(1));
        Assert.Equal("S high                      ●             ○              ○", canvas.Row(2));
        Assert.Equal("             ├────────┴────────┴────────┴────────┴────────┴────────┴────────┴", canvas.Row(3));
        Assert.Equal("S low", canvas.Row(4));
        Assert.Equal("             still    1        2        3        4        5        6        7", canvas.Row(5));
    }

    [Theory]
    [InlineData(3, 2)]
    [InlineData(2, 1)]
    [InlineData(5, 4)]
    public void Just_intervals_are_still_here(int sung, int played)
    {
        NearestStill near = NearestStill.Of(100.0 * played, 100.0 * sung);
        Assert.Equal("here", near.Way());
        Assert.Equal((sung, played), (near.Played, near.Sung));
    }

    [Fact]
    public void The_counting_error_stands_on_its_scale_as_designed()
    {
        var canvas = new Canvas(80, 3);
        KnowledgeScale.Draw(canvas, 0, KnowledgeScale.Errors, new Estimate(20, 10, 40), 20, "aim");
        Assert.Equal("  per cent    5              10             20             40             80", canvas.Row(0));
        Assert.Equal("  now                        [──────────────●──────────────]", canvas.Row(1));
        Assert.Equal("  aim                                       ▲", canvas.Row(2));
    }

    [Theory]
    [InlineData("0123456789")]
    [InlineData("ABCDEFGH")]
    public void Large_signs_differ_pairwise_in_four_cells_or_more(string signs)
    {
        for (int a = 0; a < signs.Length; a++)
        {
            for (int b = a + 1; b < signs.Length; b++)
            {
                int different = 0;
                string[] first = BigGlyphs.Of(signs[a]);
                string[] second = BigGlyphs.Of(signs[b]);
                for (int row = 0; row < BigGlyphs.Rows; row++)
                {
                    for (int x = 0; x < 8; x++)
                    {
                        different += Filled(first[row], x) != Filled(second[row], x) ? 1 : 0;
                    }
                }

                Assert.True(different >= 4, $"{signs[a]} and {signs[b]} differ in {different}");
            }
        }

        static bool Filled(string row, int x) => x < row.Length && row[x] == '#';
    }

    [Theory]
    [InlineData("xterm-256color", "de_DE.UTF-8", null, false, false)]
    [InlineData("xterm-256color", "C", null, true, false)]
    [InlineData("xterm-256color", "en_US.utf8", "1", false, true)]
    [InlineData("linux", "C.UTF-8", null, true, false)]
    [InlineData("xterm", "", "", true, false)]
    public void A_terminal_is_known_by_its_variables(string term, string locale, string? noColour, bool ascii, bool plain)
    {
        TerminalKind kind = TerminalKind.Of(
            name => name switch
            {
                "TERM" => term,
                "LANG" => locale,
                "NO_COLOR" => noColour,
                _ => null,
            },
            isWindows: false);
        Assert.Equal(new TerminalKind(ascii, plain), kind);
    }

    [Theory]
    [InlineData("xterm-256color", false)]
    [InlineData("xterm-999", false)]
    [InlineData("vt100", false)]
    [InlineData("dumb", true)]
    [InlineData("", true)]
    [InlineData(null, true)]
    public void A_terminal_that_cannot_place_its_cursor_shows_no_screens(string? term, bool refused)
    {
        string? Variable(string name) => name == "TERM" ? term : null;
        Assert.Equal(refused, TerminalKind.Obstacle(Variable, isWindows: false) is not null);
        Assert.Null(TerminalKind.Obstacle(Variable, isWindows: true));
    }

    [Fact]
    public void LC_ALL_outweighs_LANG()
    {
        TerminalKind kind = TerminalKind.Of(name => name switch { "LC_ALL" => "C", "LANG" => "de_DE.UTF-8", _ => null }, isWindows: false);
        Assert.True(kind.IsAscii);
    }
}
