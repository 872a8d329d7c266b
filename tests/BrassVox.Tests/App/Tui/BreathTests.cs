using BrassVox.Analysis;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>One breath drawn from frames whose truth is known.</summary>
public sealed class BreathTests
{
    private const double PlayedHz = 116.54;
    private const double SungHz = 174.61;

    [Theory]
    [InlineData(3)]
    [InlineData(5)]
    public void A_steady_offset_is_drawn_at_its_height(int rows)
    {
        double perHeight = rows == 3 ? 5 : 3;
        for (int height = -3; height <= 3; height++)
        {
            double cents = perHeight * height;
            Canvas canvas = Drawn(Breath(2.5, _ => 0, _ => cents), rows);
            (int y, char glyph) = Mark(canvas, 20, rows + 1, rows);
            int middle = rows + 1 + (rows / 2);
            int drawn = (3 * (middle - y)) + (glyph == Glyphs.High ? 1 : glyph == Glyphs.Low ? -1 : 0);
            Assert.Equal(height, drawn);
        }
    }

    [Fact]
    public void Beyond_the_lane_an_arrow_says_so()
    {
        Canvas canvas = Drawn(Breath(2.5, _ => -40, _ => 40), 3);
        Assert.Equal(Glyphs.Below, canvas[20, 2].Glyph);
        Assert.Equal(Glyphs.Beyond, canvas[20, 4].Glyph);
    }

    [Theory]
    [InlineData(3, 0)]
    [InlineData(5, 0)]
    [InlineData(5, 9)]
    public void Statement_12_vibrato_is_drawn_at_its_centre_within_one_height(int rows, double centre)
    {
        BreathLine line = Breath(4, _ => 0, t => centre + (30 * Math.Sin(Math.Tau * 5.5 * t)));
        double perHeight = rows == 3 ? 5 : 3;
        for (int i = 8; i < line.Columns.Count; i++)
        {
            Assert.True(line.Columns[i].SungVibrato, $"column {i}");
            Assert.InRange(line.Columns[i].SungCents!.Value, centre - perHeight, centre + perHeight);
        }

        Assert.Equal(5.5, line.VibratoOf(VoiceRole.Sung)!.Value.RateHz, 0.4);
        Assert.Equal(30, line.VibratoOf(VoiceRole.Sung)!.Value.Cents, 3.0);
        Assert.Null(line.VibratoOf(VoiceRole.Played));
        Canvas canvas = Drawn(line, rows);
        Assert.Equal(Glyphs.Vibrato, Mark(canvas, 12 + 15, rows + 1, rows).Glyph);
        Assert.Equal(centre, double.Parse(line.Numbers(VoiceRole.Sung).Offset.Replace(" c", "", StringComparison.Ordinal), System.Globalization.CultureInfo.InvariantCulture), 2.0);
    }

    [Fact]
    public void A_slow_drift_is_no_vibrato_and_is_named()
    {
        BreathLine line = Breath(6, _ => 0, t => 3 * t);
        Assert.DoesNotContain(line.Columns, column => column.SungVibrato);
        Assert.StartsWith("drift +1", line.Numbers(VoiceRole.Sung).Unrest, StringComparison.Ordinal);
        Assert.Equal("wander 0", line.Numbers(VoiceRole.Played).Unrest);
    }

    [Fact]
    public void Statement_13_what_is_not_separable_is_fog_with_its_beats_and_no_offset()
    {
        var line = new BreathLine();
        for (int i = 0; i < 300; i++)
        {
            line.Add(Frame(i, 0, null, Separability.NotSeparable, 1.4), PlayedHz, 2 * PlayedHz);
        }

        Canvas canvas = Drawn(line, 3);
        for (int x = 12; x < 12 + line.Columns.Count; x++)
        {
            Assert.All([0, 1, 2, 4, 5, 6], y => Assert.Equal(Glyphs.Fog, canvas[x, y].Glyph));
        }

        Assert.Contains(Glyphs.Gap, canvas.Row(3));
        Assert.DoesNotContain(" c", canvas.Row(1)[..12], StringComparison.Ordinal);
        Assert.Equal(("", ""), line.Numbers(VoiceRole.Played));
        Assert.Equal(("", ""), line.Numbers(VoiceRole.Sung));
    }

    [Theory]
    [InlineData(0.05, "━━━━━━━━━━")]
    [InlineData(6.0, "━ ━ ━ ━ ━ ")]
    [InlineData(20.0, "::::::::::")]
    public void Beats_in_time_are_unbroken_still_even_dashes_fast_and_dots_grain(double rate, string expected)
    {
        var line = new BreathLine();
        for (int i = 0; i < 200; i++)
        {
            line.Add(Frame(i, 0, 0, Separability.Separable, rate), PlayedHz, SungHz);
        }

        Assert.Equal(expected, Drawn(line, 3).Row(3)[12..22]);
    }

    [Fact]
    public void A_pause_in_the_frames_leaves_a_gap_and_keeps_the_time()
    {
        var line = new BreathLine();
        line.Add(Frame(0, 0, 0, Separability.Separable, 1), PlayedHz, SungHz);
        line.Add(Frame(100, 0, 0, Separability.Separable, 1), PlayedHz, SungHz);
        line.Add(Frame(111, 0, 0, Separability.Separable, 1), PlayedHz, SungHz);
        Assert.Equal(11, line.Columns.Count);
        Assert.Null(line.Columns[5].PlayedCents);
        Assert.NotNull(line.Columns[10].PlayedCents);
    }

    private static (int Y, char Glyph) Mark(Canvas canvas, int x, int top, int rows)
    {
        // Odd columns carry no dot of the asked path in the middle row.
        int column = x % 2 == 0 ? x + 1 : x;
        return Enumerable.Range(top, rows).Select(y => (y, canvas[column, y].Glyph)).First(cell => cell.Glyph != ' ');
    }

    private static Canvas Drawn(BreathLine line, int rows)
    {
        var canvas = new Canvas(80, BreathPanel.RowsFor(rows));
        BreathPanel.Draw(canvas, 0, rows, line, null);
        return canvas;
    }

    private static BreathLine Breath(double seconds, Func<double, double> playedCents, Func<double, double> sungCents)
    {
        var line = new BreathLine();
        for (int i = 0; i < seconds * 100; i++)
        {
            line.Add(Frame(i, playedCents(i / 100.0), sungCents(i / 100.0), Separability.Separable, 0.3), PlayedHz, SungHz);
        }

        return line;
    }

    private static AnalysisFrame Frame(int index, double playedCents, double? sungCents, Separability separability, double beats) => new(
        80L * index, 1280, 8000, -20,
        new PitchEstimate(Cents.Above(PlayedHz, playedCents), -20, 1),
        sungCents is { } cents ? new PitchEstimate(Cents.Above(SungHz, cents), -25, 1) : null,
        beats, separability);
}
