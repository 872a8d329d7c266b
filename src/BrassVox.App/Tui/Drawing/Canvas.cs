using System.Globalization;
using System.Text;
using BrassVox.Synthesis.Files;

namespace BrassVox.App.Tui.Drawing;

/// <summary>
/// A screen as a grid of cells, without a terminal. Rooms draw into it; whatever lies outside is dropped, so no room
/// has to fear a small window.
/// </summary>
internal sealed class Canvas
{
    private Cell[] _cells = [];

    /// <summary>An empty grid.</summary>
    /// <param name="width">Columns, at least 0.</param>
    /// <param name="height">Rows, at least 0.</param>
    public Canvas(int width, int height) => Resize(width, height);

    /// <summary>Columns.</summary>
    public int Width { get; private set; }

    /// <summary>Rows.</summary>
    public int Height { get; private set; }

    /// <summary>One cell; outside the grid it is empty.</summary>
    /// <param name="x">Column from 0.</param>
    /// <param name="y">Row from 0.</param>
    public Cell this[int x, int y] => Holds(x, y) ? _cells[(y * Width) + x] : Cell.Empty;

    /// <summary>Takes another size and clears.</summary>
    /// <param name="width">Columns, at least 0.</param>
    /// <param name="height">Rows, at least 0.</param>
    public void Resize(int width, int height)
    {
        Width = Math.Max(0, width);
        Height = Math.Max(0, height);
        if (_cells.Length != Width * Height)
        {
            _cells = new Cell[Width * Height];
        }

        Clear();
    }

    /// <summary>Empties every cell.</summary>
    public void Clear() => Array.Fill(_cells, Cell.Empty);

    /// <summary>Sets one cell.</summary>
    /// <param name="x">Column from 0.</param>
    /// <param name="y">Row from 0.</param>
    /// <param name="glyph">The character.</param>
    /// <param name="ink">What it stands for.</param>
    public void Put(int x, int y, char glyph, Ink ink = Ink.Text)
    {
        if (Holds(x, y))
        {
            _cells[(y * Width) + x] = new Cell(glyph == Cell.Covered ? glyph : char.IsSurrogate(glyph) ? Glyphs.NoSign : PlainLine.Of(glyph), ink);
        }
    }

    /// <summary>Writes text from a column to the right.</summary>
    /// <param name="x">First column.</param>
    /// <param name="y">Row from 0.</param>
    /// <param name="text">The text; no line breaks.</param>
    /// <param name="ink">What it stands for.</param>
    /// <returns>The column after the text.</returns>
    public int Write(int x, int y, ReadOnlySpan<char> text, Ink ink = Ink.Text)
    {
        foreach (Rune sign in text.EnumerateRunes())
        {
            // A mark upon the sign before it has no cell of its own.
            if (Rune.GetUnicodeCategory(sign) is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format)
            {
                continue;
            }

            // A sign that no cell can hold, as a picture sign, has a stand-in; one of double width takes the next cell too.
            Put(x, y, sign.IsBmp ? (char)sign.Value : Glyphs.NoSign, ink);
            x++;
            if (sign.IsBmp && Glyphs.IsWide((char)sign.Value))
            {
                Put(x++, y, Cell.Covered, ink);
            }
        }

        return x;
    }

    /// <summary>Writes text that ends in a column.</summary>
    /// <param name="lastX">Column of the last character.</param>
    /// <param name="y">Row from 0.</param>
    /// <param name="text">The text.</param>
    /// <param name="ink">What it stands for.</param>
    public void WriteRight(int lastX, int y, ReadOnlySpan<char> text, Ink ink = Ink.Text) =>
        Write(lastX - text.Length + 1, y, text, ink);

    /// <summary>Repeats one character.</summary>
    /// <param name="x">First column.</param>
    /// <param name="y">Row from 0.</param>
    /// <param name="count">How often; nothing when below 1.</param>
    /// <param name="glyph">The character.</param>
    /// <param name="ink">What it stands for.</param>
    public void Fill(int x, int y, int count, char glyph, Ink ink = Ink.Quiet)
    {
        for (int i = 0; i < count; i++)
        {
            Put(x + i, y, glyph, ink);
        }
    }

    /// <summary>A rule across the whole row.</summary>
    /// <param name="y">Row from 0.</param>
    public void Rule(int y) => Fill(0, y, Width, Glyphs.Rail);

    /// <summary>Writes text broken at spaces.</summary>
    /// <param name="x">First column.</param>
    /// <param name="y">First row.</param>
    /// <param name="width">Columns to keep within, at least 8.</param>
    /// <param name="text">The text.</param>
    /// <param name="ink">What it stands for.</param>
    /// <returns>The row after the text.</returns>
    public int Paragraph(int x, int y, int width, string text, Ink ink = Ink.Text)
    {
        width = Math.Max(8, width);
        ReadOnlySpan<char> rest = text;
        while (rest.Length > 0)
        {
            int length = rest.Length;
            if (length > width)
            {
                int space = rest[..(width + 1)].LastIndexOf(' ');
                length = space > 0 ? space : width;
            }

            Write(x, y++, rest[..length].TrimEnd(' '), ink);
            rest = rest[length..].TrimStart(' ');
        }

        return y;
    }

    /// <summary>Writes text broken at spaces into a few rows; what does not fit ends in <see cref="Glyphs.More"/>.</summary>
    /// <param name="x">First column.</param>
    /// <param name="y">First row.</param>
    /// <param name="width">Columns to keep within, at least 8.</param>
    /// <param name="rows">Most rows; nothing is written below 1.</param>
    /// <param name="text">The text.</param>
    /// <param name="ink">What it stands for.</param>
    /// <returns>The row after the text.</returns>
    public int Fitted(int x, int y, int width, int rows, string text, Ink ink = Ink.Text)
    {
        width = Math.Max(8, width);
        var all = new Canvas(width, Math.Max(0, rows));
        int used = all.Paragraph(0, 0, width, text);
        for (int row = 0; row < Math.Min(used, rows); row++)
        {
            string line = all.Row(row);
            if (row == rows - 1 && used > rows)
            {
                line = line.Length < width ? line + Glyphs.More : line[..(width - 1)] + Glyphs.More;
            }

            Write(x, y + row, line, ink);
        }

        return y + Math.Min(used, Math.Max(0, rows));
    }

    /// <summary>Rows that <see cref="Paragraph"/> takes for a text.</summary>
    /// <param name="width">Columns to keep within, at least 8.</param>
    /// <param name="text">The text.</param>
    public static int RowsOf(int width, string text) => new Canvas(0, 0).Paragraph(0, 0, width, text);

    /// <summary>The characters of one row, trailing spaces dropped.</summary>
    /// <param name="y">Row from 0.</param>
    /// <param name="ascii">True to write the stand-ins of a terminal without Unicode.</param>
    public string Row(int y, bool ascii = false)
    {
        var line = new StringBuilder(Width);
        for (int x = 0; x < Width; x++)
        {
            char glyph = this[x, y].Glyph;
            if (ascii || glyph != Cell.Covered)
            {
                line.Append(ascii ? Glyphs.ToAscii(glyph) : glyph);
            }
        }

        return line.ToString().TrimEnd(' ');
    }

    /// <summary>All rows, one a line.</summary>
    public override string ToString() => string.Join('\n', Enumerable.Range(0, Height).Select(y => Row(y)));

    private bool Holds(int x, int y) => (uint)x < (uint)Width && (uint)y < (uint)Height;
}
