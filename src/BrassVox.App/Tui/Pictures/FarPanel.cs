using BrassVox.App.Tui.Drawing;

namespace BrassVox.App.Tui.Pictures;

/// <summary>What is read from two metres away while both hands hold brass: one number a tone and the beats, five rows high.</summary>
internal static class FarPanel
{
    /// <summary>Rows it takes.</summary>
    /// <param name="size">1, or 2 for twice as large.</param>
    public static int RowsFor(int size) => (size * BigGlyphs.Rows) + 1;

    private const int SungColumn = 28;
    private const int BeatsColumn = 54;

    /// <summary>Draws the panel.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="top">First row.</param>
    /// <param name="played">P's offset in cents as written, such as +3; null while it is not known.</param>
    /// <param name="sung">S's offset in cents as written; null in fog or while it is not known.</param>
    /// <param name="isFog">True while two tones sound that cannot be told apart.</param>
    /// <param name="beats">The beat rate as written; empty when nothing beats.</param>
    /// <param name="what">What the two numbers are, such as cents off.</param>
    /// <param name="size">1, or 2 for twice as large.</param>
    public static void Draw(Canvas canvas, int top, string? played, string? sung, bool isFog, string beats, string what, int size)
    {
        canvas.Write(0, top, $"PLAYED  {what}", Ink.Played);
        canvas.Write(size * SungColumn, top, isFog ? "SUNG  not separable" : $"SUNG  {what}", Ink.Sung);
        canvas.Write(size * BeatsColumn, top, "BEATS  a second");
        DrawNumber(canvas, 1, top + 1, played, BigGlyphs.Square, Glyphs.Asked, Ink.Played, size);
        DrawNumber(canvas, size * SungColumn, top + 1, sung, BigGlyphs.Disc, isFog ? Glyphs.Fog : Glyphs.Asked, Ink.Sung, size);
        BigGlyphs.Write(canvas, size * BeatsColumn, top + 1, beats, Ink.Text, size);
    }

    private static void DrawNumber(Canvas canvas, int x, int y, string? number, IReadOnlyList<string> shape, char fill, Ink ink, int size)
    {
        if (number is null)
        {
            BigGlyphs.Draw(canvas, x, y, shape, fill, ink, size);
        }
        else
        {
            BigGlyphs.Write(canvas, x, y, number, ink, size);
        }
    }
}
