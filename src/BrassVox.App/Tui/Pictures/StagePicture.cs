using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Pictures;

/// <summary>
/// The pair for the back of a hall: three bands, the sources around what they make, names five rows high, each mark two
/// columns wide and two rows high; all of it twice as large where the screen allows. A pure function of what it is given.
/// </summary>
internal static class StagePicture
{
    /// <summary>Rows it takes at size 1.</summary>
    public const int Rows = 20;

    private const int NameColumns = 27;
    private const int RailFrom = 30;
    private const int RailFromLongNames = 43;
    private const int CellsPerPlayed = 8;
    private const int CellsPerPlayedLongNames = 6;
    private const int Multiples = 6;
    private const int HighestOrder = 3;
    private const int PlayedRail = 5;
    private const int SungRail = 15;
    private const int MadeBand = 7;
    private static readonly string[] Minus = ["S-P", "2P-S", "2S-P"];

    /// <summary>The axis for a figure.</summary>
    /// <param name="left">First column of the picture.</param>
    /// <param name="size">1 or 2.</param>
    /// <param name="figure">What is shown: long names leave less room for the rails.</param>
    public static (int Origin, int CellsPerPlayed) Axis(int left, int size, StageFigure figure)
    {
        bool isLong = new[] { figure.PlayedName, figure.SungName, figure.Middle }.Any(name => BigGlyphs.WidthOf(name) > NameColumns);
        int cells = isLong ? CellsPerPlayedLongNames : CellsPerPlayed;
        if (figure.Spectrum.SungHz > 3 * figure.Spectrum.PlayedHz)
        {
            cells /= 2;
        }

        return (left + (size * (isLong ? RailFromLongNames : RailFrom)), size * cells);
    }

    /// <summary>Draws the picture.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="left">First column.</param>
    /// <param name="top">First row.</param>
    /// <param name="size">1, or 2 for twice as large.</param>
    /// <param name="figure">What is shown.</param>
    public static void Draw(Canvas canvas, int left, int top, int size, StageFigure figure)
    {
        (int origin, int cells) = Axis(left, size, figure);
        var place = new Place(canvas, top, size, origin, cells, figure);
        DrawLabel(canvas, left, top, "PLAYED", figure.PlayedText, Ink.Played);
        BigGlyphs.Write(canvas, left + 1, top + size, figure.PlayedName, Ink.Played, size);
        DrawLabel(canvas, left, top + (MadeBand * size), figure.MiddleLabel.Length > 0 ? figure.MiddleWord : "", figure.MiddleLabel, Ink.Resultant);
        BigGlyphs.Write(canvas, left + 1, top + ((MadeBand + 1) * size), figure.Middle, Ink.Resultant, size);
        DrawLabel(canvas, left, top + (14 * size), "SUNG", figure.SungText, Ink.Sung);
        BigGlyphs.Write(canvas, left + 1, top + (SungRail * size), figure.SungName, Ink.Sung, size);
        canvas.Fill(origin, top + (PlayedRail * size), canvas.Width - origin, Glyphs.Rail);
        canvas.Fill(origin, top + (SungRail * size), canvas.Width - origin, Glyphs.Rail);
        DrawMeetings(place);
        DrawPartials(place, VoiceRole.Played);
        DrawPartials(place, VoiceRole.Sung);
        DrawResultants(place, difference: true, MadeBand);
        DrawResultants(place, difference: false, MadeBand + 4);
    }

    private static void DrawLabel(Canvas canvas, int x, int y, string label, string text, Ink ink)
    {
        int next = canvas.Write(x, y, label, ink);
        canvas.Write(next + 2, y, text);
    }

    private static void DrawPartials(Place place, VoiceRole role)
    {
        bool played = role == VoiceRole.Played;
        PairSpectrum spectrum = place.Figure.Spectrum;
        double hz = played ? spectrum.PlayedHz : spectrum.SungHz;
        IReadOnlyList<double> levels = played ? spectrum.PlayedDb : spectrum.SungDb;
        Ink ink = played ? Ink.Played : Ink.Sung;
        bool lit = place.IsLit(played ? "P" : "S");
        int numberRow = place.Top + (played ? 2 : 18) * place.Size;
        int markRow = place.Top + (played ? 3 : 16) * place.Size;
        for (int i = 0; i < levels.Count; i++)
        {
            int x = place.Column((i + 1) * hz);
            if (x + (2 * place.Size) > place.Canvas.Width)
            {
                break;
            }

            if (!spectrum.IsDrawn(levels[i]))
            {
                continue;
            }

            Mark(place, x, markRow, !lit ? Shape.Dots : !played ? Shape.Ring : spectrum.IsStrong(levels[i]) ? Shape.Block : Shape.Box, lit ? ink : Ink.Quiet);
            place.Canvas.Write(x, numberRow, (i + 1).ToString(CultureInfo.InvariantCulture), lit ? ink : Ink.Quiet);
        }
    }

    private static void DrawResultants(Place place, bool difference, int band)
    {
        PairSpectrum spectrum = place.Figure.Spectrum;
        var marks = new SortedDictionary<int, (string Name, double LevelDb)>();
        foreach (ResultantLevel level in spectrum.Resultants)
        {
            var line = new Resultant(level.Played, level.Sung, (level.Played * spectrum.PlayedHz) + (level.Sung * spectrum.SungHz));
            if (line.Order > HighestOrder || line.IsDifference != difference || line.FrequencyHz <= 0 || !spectrum.IsDrawn(level.LevelDb))
            {
                continue;
            }

            int x = place.Column(line.FrequencyHz);
            int[] covered = [.. marks.Keys.Where(other => Math.Abs(other - x) < 2 * place.Size)];
            if (x + (2 * place.Size) <= place.Canvas.Width && covered.All(other => marks[other].LevelDb < level.LevelDb))
            {
                // Where two would cover one another the stronger is drawn.
                Array.ForEach(covered, other => marks.Remove(other));
                marks[x] = (line.Name, level.LevelDb);
            }
        }

        int y = place.Top + (band * place.Size);
        foreach ((int x, (string name, _)) in marks)
        {
            Ink ink = place.IsLit(name) ? Ink.Resultant : Ink.Quiet;
            Mark(place, x, y, place.IsLit(name) ? Shape.Diamond : Shape.Dots, ink);
        }

        foreach ((int x, (string name, _)) in marks)
        {
            // To the right of its mark, to the left, above or below, or nowhere: never over what stands there.
            int free = x + (2 * place.Size);
            Ink ink = place.IsLit(name) ? Ink.Resultant : Ink.Quiet;
            if (IsFree(place.Canvas, free, y, name.Length + 1))
            {
                place.Canvas.Write(free, y, name, ink);
            }
            else if (IsFree(place.Canvas, x - name.Length - 1, y, name.Length + 1))
            {
                place.Canvas.Write(x - name.Length, y, name, ink);
            }
            else
            {
                int middle = x + place.Size - (name.Length / 2);
                foreach (int row in new[] { y + (2 * place.Size), y - 1 })
                {
                    if (IsFree(place.Canvas, middle - 1, row, name.Length + 2))
                    {
                        place.Canvas.Write(middle, row, name, ink);
                        break;
                    }
                }
            }
        }
    }

    // A name wants a column of air as well, so that two of them do not read as one.
    private static bool IsFree(Canvas canvas, int x, int y, int columns) =>
        x + columns <= canvas.Width + 1 && Enumerable.Range(x, columns).All(column => canvas[column, y].Glyph == ' ');

    private static void DrawMeetings(Place place)
    {
        PairSpectrum spectrum = place.Figure.Spectrum;
        int above = place.Top + ((PlayedRail + 1) * place.Size);
        int below = place.Top + ((SungRail - 1) * place.Size);
        foreach (PartialMeeting meeting in spectrum.Meetings())
        {
            int played = place.Column(meeting.Played * spectrum.PlayedHz);
            int sung = place.Column(meeting.Sung * spectrum.SungHz);
            (int low, int high) = (Math.Min(played, sung), Math.Max(played, sung) + (2 * place.Size));
            if (high > place.Canvas.Width)
            {
                break;
            }

            if (meeting.Kind == Meeting.Still)
            {
                for (int y = above; y <= below; y++)
                {
                    place.Canvas.Fill(low, y, high - low, Glyphs.Tie, Ink.Text);
                }

                continue;
            }

            char sign = meeting.Kind == Meeting.Beating ? Glyphs.Beating : Glyphs.Grain;
            for (int row = 0; row < place.Size; row++)
            {
                place.Canvas.Fill(low, above + row, high - low, sign, Ink.Text);
                place.Canvas.Fill(low, below + row - (place.Size - 1), high - low, sign, Ink.Text);
            }
        }
    }

    private enum Shape
    {
        Block,
        Box,
        Ring,
        Diamond,

        // Under a spotlight's other part: seen without colour too.
        Dots,
    }

    private static void Mark(Place place, int x, int y, Shape shape, Ink ink)
    {
        int side = 2 * place.Size;
        for (int row = 0; row < side; row++)
        {
            for (int column = 0; column < side; column++)
            {
                char glyph = Sign(shape, column, row, side);
                if (glyph != ' ')
                {
                    place.Canvas.Put(x + column, y + row, glyph, ink);
                }
            }
        }
    }

    private static char Sign(Shape shape, int x, int y, int side)
    {
        int last = side - 1;
        bool left = x == 0;
        bool right = x == last;
        switch (shape)
        {
            case Shape.Block:
                return Glyphs.Block;
            case Shape.Dots:
                return Glyphs.Asked;
            case Shape.Diamond:
                int half = side / 2;
                int rise = y < half ? half - 1 - y : y - half;
                return x == rise ? (y < half ? '╱' : '╲') : x == last - rise ? (y < half ? '╲' : '╱') : ' ';
            default:
                string corners = shape == Shape.Ring ? "╭╮╰╯" : "┌┐└┘";
                return (y == 0, y == last) switch
                {
                    (true, _) => left ? corners[0] : right ? corners[1] : Glyphs.Rail,
                    (_, true) => left ? corners[2] : right ? corners[3] : Glyphs.Rail,
                    _ => left || right ? Glyphs.Tie : ' ',
                };
        }
    }

    /// <summary>Where everything goes.</summary>
    private sealed record Place(Canvas Canvas, int Top, int Size, int Origin, int Cells, StageFigure Figure)
    {
        public int Column(double hz) =>
            Origin + (int)Math.Min(100_000, Math.Round(Cells * hz / Figure.Spectrum.PlayedHz, MidpointRounding.AwayFromZero));

        public bool IsLit(string name) => Figure.Spotlight is not { } lit || string.Equals(lit, name, StringComparison.Ordinal);
    }
}
