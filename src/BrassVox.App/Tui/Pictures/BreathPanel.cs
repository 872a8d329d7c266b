using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>Both tones of one breath against what was asked, with the beats between them in time.</summary>
internal static class BreathPanel
{
    private const int Left = 12;
    private const int RightMargin = 8;

    /// <summary>Columns at hand for the breath on a screen.</summary>
    /// <param name="width">Columns of the screen.</param>
    public static int ColumnsFor(int width) => Math.Max(10, width - Left - RightMargin);

    /// <summary>Rows taken for a number of rows a tone.</summary>
    /// <param name="rowsPerTone">3 or 5.</param>
    public static int RowsFor(int rowsPerTone) => (2 * rowsPerTone) + 1;

    /// <summary>Draws the panel.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="top">First row.</param>
    /// <param name="rowsPerTone">3 (5 c a height) or 5 (3 c a height).</param>
    /// <param name="line">The breath.</param>
    /// <param name="inHand">The tone in hand, or null.</param>
    public static void Draw(Canvas canvas, int top, int rowsPerTone, BreathLine line, VoiceRole? inHand)
    {
        DrawTone(canvas, top, rowsPerTone, line, VoiceRole.Played, inHand == VoiceRole.Played);
        int columns = ColumnsFor(canvas.Width);
        canvas.Write(0, top + rowsPerTone, "beats");
        DrawBeats(canvas, Left, top + rowsPerTone, columns, line);
        canvas.WriteRight(
            canvas.Width - 1, top + rowsPerTone, string.Create(CultureInfo.InvariantCulture, $"{columns / line.ColumnsPerSecond:0} s"), Ink.Quiet);
        DrawTone(canvas, top + rowsPerTone + 1, rowsPerTone, line, VoiceRole.Sung, inHand == VoiceRole.Sung);
    }

    /// <summary>Draws one tone's lane: what was asked as dots, what was heard at its height, fog where the two could not be told apart.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    /// <param name="rows">3 (5 c a height) or 5 (3 c a height).</param>
    /// <param name="columns">Columns at hand.</param>
    /// <param name="line">The breath.</param>
    /// <param name="role">The tone.</param>
    /// <param name="under">Another breath that lies under it, in dots; null for none. Where both stand at one place the upper one is seen.</param>
    public static void DrawLane(Canvas canvas, int left, int top, int rows, int columns, BreathLine line, VoiceRole role, BreathLine? under = null)
    {
        bool played = role == VoiceRole.Played;
        Ink ink = played ? Ink.Played : Ink.Sung;
        int most = (3 * (rows / 2)) + 1;
        int middle = top + (rows / 2);
        double perHeight = PerHeight(rows);
        for (int i = 0; i < columns; i += 2)
        {
            canvas.Put(left + i, middle, Glyphs.Asked, Ink.Quiet);
        }

        for (int i = 0; under is not null && i < under.Columns.Count && i < columns; i++)
        {
            BreathColumn column = under.Columns[i];
            if (!column.IsFog && (played ? column.PlayedCents : column.SungCents) is { } cents)
            {
                DrawUnder(canvas, left + i, middle, most, (int)Math.Round(cents / perHeight));
            }
        }

        for (int i = 0; i < line.Columns.Count && i < columns; i++)
        {
            BreathColumn column = line.Columns[i];
            if (column.IsFog)
            {
                for (int y = 0; y < rows; y++)
                {
                    canvas.Put(left + i, top + y, Glyphs.Fog, ink);
                }
            }
            else if ((played ? column.PlayedCents : column.SungCents) is { } cents)
            {
                bool vibrato = played ? column.PlayedVibrato : column.SungVibrato;
                DrawHeight(canvas, left + i, middle, most, (int)Math.Round(cents / perHeight), vibrato, ink);
            }
        }
    }

    /// <summary>Draws the beats in time: unbroken is still, dashes beat, even dashes beat faster than columns can show, dots are grain.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="left">First column.</param>
    /// <param name="y">Row.</param>
    /// <param name="columns">Columns at hand.</param>
    /// <param name="line">The breath.</param>
    public static void DrawBeats(Canvas canvas, int left, int y, int columns, BreathLine line)
    {
        double phase = 0;
        for (int i = 0; i < line.Columns.Count && i < columns; i++)
        {
            double? rate = line.Columns[i].BeatRateHz;
            phase += (rate ?? 0) / line.ColumnsPerSecond;
            char glyph = rate switch
            {
                null => ' ',
                < BeatingPairs.StillBelowHz => Glyphs.Gap,
                > BeatingPairs.BeatingUpToHz => Glyphs.Grain,
                _ when rate > 0.4 * line.ColumnsPerSecond => i % 2 == 0 ? Glyphs.Gap : ' ',
                _ => phase - Math.Floor(phase) < 0.6 ? Glyphs.Gap : ' ',
            };
            canvas.Put(left + i, y, glyph);
        }
    }

    /// <summary>Writes the limits of a lane at the right.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="top">First row.</param>
    /// <param name="rows">3 or 5.</param>
    public static void DrawLimits(Canvas canvas, int top, int rows)
    {
        double limit = PerHeight(rows) * ((3 * (rows / 2)) + 1);
        canvas.WriteRight(canvas.Width - 1, top, string.Create(CultureInfo.InvariantCulture, $"+{limit:0} c"), Ink.Quiet);
        canvas.WriteRight(canvas.Width - 1, top + rows - 1, string.Create(CultureInfo.InvariantCulture, $"-{limit:0} c"), Ink.Quiet);
    }

    private static double PerHeight(int rows) => rows >= 5 ? 3 : 5;

    private static void DrawTone(Canvas canvas, int top, int rows, BreathLine line, VoiceRole role, bool inHand)
    {
        bool played = role == VoiceRole.Played;
        Ink ink = played ? Ink.Played : Ink.Sung;
        if (inHand)
        {
            canvas.Put(0, top, Glyphs.InHand);
        }

        canvas.Put(2, top, played ? Glyphs.PlayedStrong : Glyphs.SungStrong, ink);
        canvas.Write(4, top, played ? "played" : "sung", ink);
        DrawLimits(canvas, top, rows);
        (string offset, string unrest) = line.Numbers(role);
        canvas.WriteRight(8, top + (rows / 2), offset);
        canvas.Write(0, top + (rows / 2) + 1, unrest);
        DrawLane(canvas, Left, top, rows, ColumnsFor(canvas.Width), line, role);
    }

    // Off the lane nothing is drawn: the arrows belong to the breath on top.
    private static void DrawUnder(Canvas canvas, int x, int middle, int most, int height)
    {
        if (Math.Abs(height) > most)
        {
            return;
        }

        int row = (int)Math.Round(height / 3.0, MidpointRounding.AwayFromZero);
        canvas.Put(x, middle - row, (height - (3 * row)) switch { > 0 => Glyphs.OtherHigh, < 0 => Glyphs.OtherLow, _ => Glyphs.OtherMiddle }, Ink.Quiet);
    }

    private static void DrawHeight(Canvas canvas, int x, int middle, int most, int height, bool vibrato, Ink ink)
    {
        int kept = Math.Clamp(height, -most, most);
        int row = (int)Math.Round(kept / 3.0, MidpointRounding.AwayFromZero);
        char glyph = (kept - (3 * row)) switch
        {
            > 0 => Glyphs.High,
            < 0 => Glyphs.Low,
            _ => Glyphs.Middle,
        };
        if (height > most)
        {
            glyph = Glyphs.Beyond;
        }
        else if (height < -most)
        {
            glyph = Glyphs.Below;
        }
        else if (vibrato)
        {
            glyph = Glyphs.Vibrato;
        }

        canvas.Put(x, middle - row, glyph, ink);
    }
}
