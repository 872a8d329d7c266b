using System.Globalization;
using BrassVox.App.Tui.Drawing;

namespace BrassVox.App.Tui.Pictures;

/// <summary>How far the pair is from still, in beats a second: stillness is a wall at the left, with a lane for each side.</summary>
internal static class ApproachPanel
{
    /// <summary>Rows it takes.</summary>
    public const int Rows = 7;

    private const int Wall = 13;
    private const int CellsPerBeat = 9;
    private const int MultiplesShown = 3;

    /// <summary>Draws the panel.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="top">First row.</param>
    /// <param name="near">The nearest still place.</param>
    /// <param name="sungLine">What is said of S: its Hz and note.</param>
    public static void Draw(Canvas canvas, int top, NearestStill near, string sungLine)
    {
        canvas.Write(0, top, $"APPROACH   beats a second from still: {Glyphs.SungStrong} the nearest pair, {Glyphs.SungWeak} its multiples");
        int last = Wall + (CellsPerBeat * ((canvas.Width - 3 - Wall) / CellsPerBeat));
        bool high = near.SungCents < 0;
        canvas.Write(0, top + 2, "S high", Ink.Sung);
        canvas.Write(0, top + 4, "S low", Ink.Sung);
        DrawRuler(canvas, top + 3, last);
        int lane = top + (high ? 2 : 4);
        int free = 0;
        for (int multiple = 1; multiple <= MultiplesShown; multiple++)
        {
            int x = Wall + (int)Math.Round(CellsPerBeat * near.RateHz * multiple, MidpointRounding.AwayFromZero);
            if (x <= last)
            {
                if (canvas[x, lane].Glyph != Glyphs.SungStrong)
                {
                    canvas.Put(x, lane, multiple == 1 ? Glyphs.SungStrong : Glyphs.SungWeak, Ink.Sung);
                }

                string name = string.Create(CultureInfo.InvariantCulture, $"{multiple * near.Played}:{multiple * near.Sung}");
                if (x >= free)
                {
                    free = canvas.Write(x, top + 1, name) + 1;
                }
            }
            else if (multiple == 1)
            {
                canvas.Put(last, lane, Glyphs.Beyond, Ink.Sung);
                canvas.WriteRight(last, top + 1, string.Create(CultureInfo.InvariantCulture, $"{near.Played}:{near.Sung} beyond"));
            }
        }

        int next = canvas.Write(0, top + 6, sungLine);
        canvas.Write(next + 3, top + 6, $"nearest still: {near.Way()}");
    }

    private static void DrawRuler(Canvas canvas, int y, int last)
    {
        canvas.Put(Wall, y, Glyphs.RailStart, Ink.Quiet);
        canvas.Fill(Wall + 1, y, last - Wall, Glyphs.Rail);
        canvas.Write(Wall, y + 2, "still", Ink.Quiet);
        for (int beats = 1; Wall + (beats * CellsPerBeat) <= last; beats++)
        {
            int x = Wall + (beats * CellsPerBeat);
            canvas.Put(x, y, Glyphs.RailTick, Ink.Quiet);
            canvas.Write(x, y + 2, beats.ToString(CultureInfo.InvariantCulture), Ink.Quiet);
        }
    }
}
