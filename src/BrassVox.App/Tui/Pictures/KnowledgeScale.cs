using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.Practice.Sessions;

namespace BrassVox.App.Tui.Pictures;

/// <summary>What a listener can tell, as a range on a scale; never points.</summary>
internal static class KnowledgeScale
{
    private const int Left = 14;

    /// <summary>Counting errors in per cent, each mark twice the last.</summary>
    public static IReadOnlyList<double> Errors { get; } = [5, 10, 20, 40, 80];

    /// <summary>Shares in per cent.</summary>
    public static IReadOnlyList<double> Shares { get; } = [0, 25, 50, 75, 100];

    /// <summary>Draws three rows: the scale, the range with its middle, and one mark to compare with.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="y">First row.</param>
    /// <param name="marks">The scale's marks, evenly spaced on the screen.</param>
    /// <param name="range">What is known.</param>
    /// <param name="other">The value to compare with.</param>
    /// <param name="otherName">Its name.</param>
    public static void Draw(Canvas canvas, int y, IReadOnlyList<double> marks, Estimate range, double other, string otherName)
    {
        int step = Math.Min(15, (canvas.Width - Left - 6) / (marks.Count - 1));
        canvas.Write(2, y, "per cent", Ink.Quiet);
        for (int i = 0; i < marks.Count; i++)
        {
            canvas.Write(Left + (i * step), y, marks[i].ToString("0", CultureInfo.InvariantCulture), Ink.Quiet);
        }

        int low = Column(marks, step, range.Low);
        int high = Column(marks, step, range.High);
        canvas.Write(2, y + 1, "now");
        canvas.Put(low, y + 1, '[');
        canvas.Fill(low + 1, y + 1, high - low - 1, Glyphs.Rail, Ink.Text);
        canvas.Put(high, y + 1, ']');
        canvas.Put(Column(marks, step, range.Value), y + 1, Glyphs.SungStrong);
        canvas.Write(2, y + 2, otherName);
        canvas.Put(Column(marks, step, other), y + 2, Glyphs.Place);
    }

    private static int Column(IReadOnlyList<double> marks, int step, double value)
    {
        if (value <= marks[0])
        {
            return Left;
        }

        for (int i = 1; i < marks.Count; i++)
        {
            if (value <= marks[i])
            {
                double part = marks[0] > 0
                    ? Math.Log(value / marks[i - 1]) / Math.Log(marks[i] / marks[i - 1])
                    : (value - marks[i - 1]) / (marks[i] - marks[i - 1]);
                return Left + (int)Math.Round(step * (i - 1 + part));
            }
        }

        return Left + (step * (marks.Count - 1));
    }
}
