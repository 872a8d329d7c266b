using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Takes draws.</summary>
internal sealed partial class TakesRoom
{
    private const int MapTop = 2;
    private const int FewMapRows = 6;
    private const int MapLeft = 14;
    private const int CellWidth = 16;
    private const int TallFrom = 36;
    private const int DetailRows = 3;
    private const int ExerciseColumn = 24;
    private const int PairColumn = 43;
    private const int PlayedColumn = 56;
    private const int SungColumn = 64;
    private const int BodyColumn = 72;
    private const int MostGrown = 48;

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        int mapped = _map.Cells.Sum(cell => cell.ToldTakes + cell.FogTakes);
        string inMap = mapped == _all.Length ? "" : string.Create(CultureInfo.InvariantCulture, $", {mapped} in the map");
        string kept = string.Create(CultureInfo.InvariantCulture, $"{_all.Length} kept here{inMap}");
        // Where not all reasons have room, that some were not judged goes before the others.
        string[] counts = [kept + WhyOut(_leftOut), kept + WhyOut(_leftOut.Where(some => some.IsNotJudged)), kept];
        Stand.DrawHeader(canvas, Stand.PlayerName, !_isRead ? "counting" : counts.FirstOrDefault(words => Stand.HeaderHolds(canvas, [Stand.PlayerName, words]), kept), PlayerWords.Line(Stand));
        if (_all.Length == 0 && _between.Length == 0)
        {
            canvas.Write(3, 2, _isRead ? "Play along keeps takes here; nothing leaves this machine." : "Reading the takes.");
            for (int i = 0; i < Choices.Count; i++)
            {
                bool marked = i == MarkedIndex;
                canvas.Put(1, 4 + i, marked ? Glyphs.Marked : ' ', Ink.Marked);
                canvas.Write(3, 4 + i, Choices[i].Label, marked ? Ink.Marked : Ink.Text);
            }

            DrawMarkedLine(canvas, "Left Right other   Space tacet   Esc back   h keys");
            return;
        }

        int grown = Grown(canvas);
        int y = DrawMap(canvas, MapTop);
        canvas.Rule(y++);
        canvas.Write(2, y, "take", Ink.Quiet);
        canvas.Write(ExerciseColumn, y, "exercise", Ink.Quiet);
        canvas.Write(PlayedColumn + grown, y, "P", Ink.Played);
        canvas.Write(SungColumn + grown, y, "S", Ink.Sung);
        canvas.Write(BodyColumn + grown, y++, "body", Ink.Quiet);
        int rows = Math.Max(2, canvas.Height - 2 - DetailRows - y);
        _first = Math.Clamp(_first, Math.Max(0, _chosen - rows + 1), Math.Min(_chosen, Math.Max(0, _shown.Length - rows)));
        for (int i = 0; i < rows && _first + i < _shown.Length; i++)
        {
            DrawLine(canvas, y + i, _first + i);
        }

        DrawDetail(canvas, y + rows);
        canvas.Fill(0, canvas.Height - 2, canvas.Width, ' ', Ink.Text);
        DrawMarkedLine(canvas, _isInMap ? "arrows cell  Tab list  y body  h keys" : "Up Down take  Tab map  k lay over  n handout  Left Right other  Del delete  z undo  h keys");
    }

    // Why takes are in no cell, each reason once.
    private static string WhyOut(IEnumerable<LeftOut> leftOut) => string.Concat(leftOut.GroupBy(some => some.InShort).Select(some => string.Create(
        CultureInfo.InvariantCulture, $", {some.Sum(part => part.Takes)} {some.Key}")));

    private int DrawMap(Canvas canvas, int y)
    {
        IReadOnlyList<IntervalFamily> families = _map.Families;
        IReadOnlyList<PlayedRegister> registers = _map.Registers;
        canvas.Write(0, y, "WHERE IT FAILS", _isInMap ? Ink.Marked : Ink.Text);
        canvas.Write(17, y++, "median, cents: o offset  w wander  d drift  (takes told+fog)", Ink.Quiet);
        if (families.Count == 0)
        {
            canvas.Write(2, y++, "no take counts yet");
            return y;
        }

        int columns = Math.Min(registers.Count, (canvas.Width - MapLeft) / CellWidth);
        int left = Math.Clamp(_column - columns + 1, 0, registers.Count - columns);
        canvas.Write(2, y, "played", Ink.Quiet);
        for (int i = 0; i < columns; i++)
        {
            canvas.Write(MapLeft + (i * CellWidth), y, registers[left + i].Name(Stand.Memory.Now.Naming), Ink.Quiet);
        }

        y++;
        int rows = Math.Min(families.Count, canvas.Height >= TallFrom ? families.Count : FewMapRows);
        int top = Math.Clamp(_row - rows + 1, 0, families.Count - rows);
        for (int r = 0; r < rows; r++, y++)
        {
            canvas.Write(2, y, IntervalFamilies.Name(families[top + r]));
            for (int i = 0; i < columns; i++)
            {
                bool here = _isInMap && top + r == _row && left + i == _column;
                int x = MapLeft + (i * CellWidth);
                if (here)
                {
                    canvas.Put(x - 2, y, Glyphs.InHand, Ink.Marked);
                }

                string figure = _map.Find(families[top + r], registers[left + i]) is { } cell ? TakeWords.Figure(cell, Stand.Memory.Now.Unit, Stand.Profile.A4Hz) : "-";
                canvas.Write(x, y, figure, here ? Ink.Marked : figure == "-" ? Ink.Quiet : Ink.Text);
            }
        }

        if (_trend is { } trend)
        {
            DrawWeeks(canvas, y++, trend);
        }

        return y;
    }

    private void DrawWeeks(Canvas canvas, int y, WeekTrend trend)
    {
        string letter = trend.Cell.Kind == ErrorKind.Beats ? "/s" : trend.Cell.Kind.ToString()[..1].ToLowerInvariant();
        string format = trend.Cell.Kind == ErrorKind.Beats ? "0.0" : "0";
        int x = canvas.Write(0, y, $"WEEKS  {IntervalFamilies.Name(trend.Cell.Family)}, {trend.Cell.Register.Name(Stand.Memory.Now.Naming)}") + 3;
        foreach (WeekFigure week in trend.Weeks.TakeLast(Math.Max(1, (canvas.Width - x) / 8)))
        {
            string figure = week.Value is { } value ? $"{value.ToString(format, CultureInfo.InvariantCulture)} {letter}" : "rest";
            x = canvas.Write(x, y, figure, week.Value is null ? Ink.Quiet : Ink.Text) + 3;
        }
    }

    // A wider window gives its columns to the names of exercises first.
    private static int Grown(Canvas canvas) => Math.Clamp(canvas.Width - MusicStand.LeastWidth, 0, MostGrown);

    private void DrawLine(Canvas canvas, int y, int index)
    {
        bool chosen = index == _chosen;
        int grown = Grown(canvas);
        Ink ink = chosen ? Ink.Marked : Ink.Text;
        if (chosen)
        {
            canvas.Put(0, y, Glyphs.InHand, Ink.Marked);
        }

        if (_shown[index] is not { Take: { } logged })
        {
            canvas.Write(2, y, _shown[index].When, ink);
            canvas.Write(ExerciseColumn, y, "between takes", ink);
            canvas.Fitted(BodyColumn + grown, y, canvas.Width - BodyColumn - grown, 1, BodyTags.Name(_shown[index].Note!.Tag), ink);
            return;
        }

        TakeRecord take = logged.Take;
        if (take.Id == _under?.Id)
        {
            canvas.Put(1, y, '_', Ink.Marked);
        }

        canvas.Write(2, y, TakeWords.When(take), ink);
        int room = PairColumn + grown - ExerciseColumn - 1;
        string name = take.Heading.Length <= room || Stand.Parts.Exercises.Find(take.ExerciseId) is not { } exercise ? take.Heading : exercise.InShort;
        canvas.Fitted(ExerciseColumn, y, room, 1, name, ink);
        canvas.Write(PairColumn + grown, y, $"{Stand.Name(take.Played)} + {Stand.Name(take.Sung)}", ink);
        if (logged.WhyNotScored is { } why)
        {
            canvas.Write(PlayedColumn + grown, y, why, ink);
        }
        else if (logged.WhyNotJudged is { } unjudged)
        {
            canvas.Write(PlayedColumn + grown, y, $"? {unjudged}", ink);
        }
        else if (take.Result.Pair.FogSeconds > take.Result.Pair.SeparableSeconds)
        {
            canvas.Write(PlayedColumn + grown, y, "fog", ink);
            canvas.Write(SungColumn + grown, y, take.Result.Pair.MedianBeatsPerSecond is { } rate ? $"{PairPicture.Rate(rate)} /s" : take.Result.Pair.StillSeconds > take.Result.Pair.BeatingSeconds ? "still" : "-", ink);
        }
        else
        {
            canvas.Write(PlayedColumn + grown, y, Cli.TakesText.Tone(take.Result.Played), ink);
            canvas.Write(SungColumn + grown, y, Cli.TakesText.Tone(take.Result.Sung), ink);
        }

        string body = string.Join(", ", logged.Body.Select(BodyTags.Name));
        canvas.Fitted(BodyColumn + grown, y, canvas.Width - BodyColumn - grown, 1, body, ink);
    }

    private void DrawDetail(Canvas canvas, int y)
    {
        int width = canvas.Width - 1;
        int last = canvas.Height - 2;
        if (_isInMap)
        {
            string words = Cell is { } cell ? $"{cell.Words(Stand.Memory.Now.Naming)}. {InFog(cell)}{(cell.IsSound ? "Nothing here to mend: keep it, or take another interval or register." : cell.IsMostlyOtherNote ? "First the notes: hear each in your head, with the cue, then begin." : Cure(cell.Kind))}" : "No take here yet.";
            int passages = ErrorMap.PassagesLeftOut(_all);
            string apart = passages == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $" {passages} of passages, many pairs each, {(passages == 1 ? "is" : "are")} not in the map.");
            canvas.Paragraph(0, y, width, words + apart + (NotJudged.Length > 0 ? $" {NotJudged}" : ""));
            return;
        }

        if (ChosenNote is not null)
        {
            canvas.Paragraph(0, y, width, "Noted between takes: it belongs to this day, not to a take. The plan takes notice of it; Del deletes it.");
            return;
        }

        if (Chosen is not { Take: { } take })
        {
            return;
        }

        // What to do next always finds room; of what was said as much as fits.
        string next = $"NEXT  {take.Result.Next}";
        int left = last - y - Canvas.RowsOf(width, next);
        foreach (string line in take.Said is { } said ? Sayings.Compare(said, take.Result).Select(check => $"YOU SAID  {check.Said}: {check.Measured}") : ["CLOSED  nothing was said of it"])
        {
            int rows = Canvas.RowsOf(width, line);
            if (rows <= left)
            {
                left -= rows;
                y = canvas.Paragraph(0, y, width, line);
            }
        }

        canvas.Paragraph(0, y, width, next);
    }

    // Which of the takes the figure is of, where a cell holds both kinds; what is in no cell is told apart.
    private static string InFog(ErrorCell cell) => cell is { ToldTakes: > 0, FogTakes: > 0 }
        ? string.Create(CultureInfo.InvariantCulture, $"Of {cell.ToldTakes + cell.FogTakes} takes {cell.FogTakes} lay in fog; the figure is of the {(cell.Kind == ErrorKind.Beats ? "fog" : "others")}. ")
        : "";

    private static string Cure(ErrorKind kind) => kind switch
    {
        ErrorKind.Offset => "It is off, not unsteady: hear the tone before you sing it, with the drone, then without.",
        ErrorKind.Wander => "It wanders, it is not off: long tones on one breath, softer.",
        ErrorKind.Drift => "It starts well and leaves: keep the breath's end for the last second.",
        _ => "Here beats are the measure: slow them down until they stand.",
    };
}
