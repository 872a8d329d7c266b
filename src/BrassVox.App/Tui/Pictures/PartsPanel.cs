using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>The parts of the sound as a list: Hz, note, cents, level, and what is done to each.</summary>
internal static class PartsPanel
{
    /// <summary>Draws a header and as many parts as fit.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="top">First row.</param>
    /// <param name="rows">Rows at hand, the header's included.</param>
    /// <param name="parts">The parts in order; the one in hand is always shown.</param>
    /// <param name="a4Hz">A4 in Hz.</param>
    /// <param name="noteName">Writes a note's name.</param>
    public static void Draw(Canvas canvas, int top, int rows, IReadOnlyList<PartRow> parts, double a4Hz, Func<Pitch, string> noteName)
    {
        canvas.Write(0, top, "   part          Hz   note    c    dB   state", Ink.Quiet);
        int room = Math.Max(1, rows - 1);
        int first = 0;
        for (int i = 0; i < parts.Count; i++)
        {
            if (parts[i].IsInHand && i >= room)
            {
                first = i - room + 1;
            }
        }

        for (int i = 0; i < room && first + i < parts.Count; i++)
        {
            DrawRow(canvas, top + 1 + i, parts[first + i], a4Hz, noteName);
        }
    }

    private static void DrawRow(Canvas canvas, int y, PartRow part, double a4Hz, Func<Pitch, string> noteName)
    {
        NearestNote near = NearestNote.Of(part.FrequencyHz, a4Hz);
        if (part.IsInHand)
        {
            canvas.Put(0, y, Glyphs.InHand);
        }

        canvas.Put(2, y, Mark(part), part.Ink);
        // Beside the sign the word: on a terminal of letters the sign is the letter.
        canvas.Write(4, y, part.Ink switch { Ink.Played => "played", Ink.Sung => "sung", _ => part.Name }, part.Ink);
        canvas.WriteRight(19, y, part.FrequencyHz.ToString("0.00", CultureInfo.InvariantCulture));
        if (part.FrequencyHz >= NearestNote.LowestPitchHz)
        {
            canvas.Write(23, y, noteName(near.Note), part.Ink);
            canvas.WriteRight(32, y, near.Cents.ToString("+0;-0;0", CultureInfo.InvariantCulture));
        }
        else
        {
            canvas.Write(23, y, part.FrequencyHz > BeatingPairs.BeatingUpToHz ? "grain" : "beats", part.Ink);
        }

        if (part.LevelDb is { } level)
        {
            canvas.WriteRight(38, y, level <= -100 ? "-" : level.ToString("0", CultureInfo.InvariantCulture));
        }

        canvas.Write(42, y, part.State);
    }

    private static char Mark(PartRow part) => (part.Ink, part.IsStrong) switch
    {
        (Ink.Played, true) => Glyphs.PlayedStrong,
        (Ink.Played, false) => Glyphs.PlayedWeak,
        (Ink.Sung, true) => Glyphs.SungStrong,
        (Ink.Sung, false) => Glyphs.SungWeak,
        (_, true) => Glyphs.ResultantStrong,
        _ => Glyphs.ResultantWeak,
    };
}
