using BrassVox.App.Tui.Drawing;

namespace BrassVox.App.Tui.Pictures;

/// <summary>
/// Signs five rows high, for what is read while playing or from the back of a hall. Strokes are two columns wide and one
/// row high, so that they look even in cells of 1:2.
/// </summary>
internal static class BigGlyphs
{
    /// <summary>Rows of every sign.</summary>
    public const int Rows = 5;

    private const int Between = 2;

    /// <summary>A played tone: a square.</summary>
    public static IReadOnlyList<string> Square { get; } = ["############", "############", "############", "############", "############"];

    /// <summary>A sung tone: a disc.</summary>
    public static IReadOnlyList<string> Disc { get; } = ["    ####", " ##########", "############", " ##########", "    ####"];

    /// <summary>Columns that <see cref="Write"/> takes for a text, the gap after its last sign left out.</summary>
    /// <param name="text">The text.</param>
    /// <param name="size">1, or 2 for signs of twice the width and height.</param>
    public static int WidthOf(string text, int size = 1) =>
        text.Length == 0 ? 0 : size * (text.Sum(sign => Of(sign).Max(row => row.Length) + Between) - Between);

    /// <summary>Draws text in large signs.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="x">First column.</param>
    /// <param name="y">First row.</param>
    /// <param name="text">Digits, A to H, O M R I S L, # b + - . c, = for still, / for "a second"; anything else leaves a gap.</param>
    /// <param name="ink">What it stands for.</param>
    /// <param name="size">1, or 2 for signs of twice the width and height.</param>
    /// <returns>The column after the text.</returns>
    public static int Write(Canvas canvas, int x, int y, string text, Ink ink, int size = 1)
    {
        foreach (char sign in text)
        {
            string[] rows = Of(sign);
            Draw(canvas, x, y, rows, Glyphs.Block, ink, size);
            x += size * (rows.Max(row => row.Length) + Between);
        }

        return x;
    }

    /// <summary>Draws a shape.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="x">First column.</param>
    /// <param name="y">First row.</param>
    /// <param name="shape">Rows in which # is filled.</param>
    /// <param name="fill">What it is filled with.</param>
    /// <param name="ink">What it stands for.</param>
    /// <param name="size">1, or 2 for twice the width and height.</param>
    public static void Draw(Canvas canvas, int x, int y, IReadOnlyList<string> shape, char fill, Ink ink, int size = 1)
    {
        for (int row = 0; row < size * shape.Count; row++)
        {
            string line = shape[row / size];
            for (int i = 0; i < size * line.Length; i++)
            {
                if (line[i / size] == '#')
                {
                    canvas.Put(x + i, y + row, fill, ink);
                }
            }
        }
    }

    /// <summary>The rows of one sign, # where it is filled; blank when there is no such sign.</summary>
    /// <param name="sign">The sign.</param>
    public static string[] Of(char sign) => sign switch
    {
        '0' => [" ####", "##  ##", "##  ##", "##  ##", " ####"],
        '1' => ["  ##", "####", "  ##", "  ##", "######"],
        '2' => ["#####", "    ##", " ####", "##", "######"],
        '3' => ["######", "    ##", "  ####", "    ##", "######"],
        '4' => ["##  ##", "##  ##", "######", "    ##", "    ##"],
        '5' => ["######", "##", "#####", "    ##", "#####"],
        '6' => ["  ####", "##", "#####", "##  ##", " ####"],
        '7' => ["######", "    ##", "   ##", "  ##", "  ##"],
        '8' => [" ####", "##  ##", " ####", "##  ##", " ####"],
        '9' => [" ####", "##  ##", " #####", "    ##", "####"],
        'A' => [" ####", "##  ##", "######", "##  ##", "##  ##"],
        'B' => ["#####", "##  ##", "#####", "##  ##", "#####"],
        'C' => [" #####", "##", "##", "##", " #####"],
        'D' => ["####", "## ##", "##  ##", "## ##", "####"],
        'E' => ["######", "##", "####", "##", "######"],
        'F' => ["######", "##", "####", "##", "##"],
        'G' => [" #####", "##", "## ###", "##  ##", " #####"],
        'H' => ["##  ##", "##  ##", "######", "##  ##", "##  ##"],
        'O' => ["######", "##  ##", "##  ##", "##  ##", "######"],
        'M' => ["##    ##", "########", "## ## ##", "##    ##", "##    ##"],
        'R' => ["#####", "##  ##", "#####", "## ##", "##  ##"],
        'I' => ["######", "  ##", "  ##", "  ##", "######"],
        'S' => [" #####", "##", " ####", "    ##", "#####"],
        'L' => ["##", "##", "##", "##", "######"],
        '#' => [" #  #", "######", " #  #", "######", " #  #"],
        'b' => ["##", "##", "####", "## ##", "####"],
        '+' => ["", "  ##", "######", "  ##", ""],
        '-' => ["", "", "######", "", ""],
        '.' => ["", "", "", "", "##"],
        'c' => ["", " ####", "##", "##", " ####"],
        '=' => ["", "######", "", "######", ""],
        '/' => ["    ##", "   ##  ###", "  ##   ##", " ##      #", "##     ###"],
        _ => ["  ", "  ", "  ", "  ", "  "],
    };
}
