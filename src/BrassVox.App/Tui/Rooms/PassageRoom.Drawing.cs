using System.Globalization;
using BrassVox.App.Cli;
using BrassVox.App.Tui.Drawing;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Passage shows: names in rows, figured like a bass; no height of pitch, no running cursor.</summary>
internal sealed partial class PassageRoom
{
    private const int LabelWidth = 10;
    private const int ColumnWidth = 10;
    private const int FirstRow = 2;
    private const int PlainRows = 9;
    private const int FewCareRows = 2;
    private const int MostCareRows = 4;
    private const int TallFrom = 40;
    private const int RowsBelow = 12;

    // Until the speaker is tested, that of a small one: C2. Ours, to be tried with players.
    private const double UntestedLowestHz = 65;

    private static readonly HelpStep[] Helps = Enum.GetValues<HelpStep>();

    private void DrawPassage(Canvas canvas, Passage passage, PassageReport report)
    {
        string voice = _octaves == 0 ? $"{Stand.Profile.Voice.ToString().ToLowerInvariant()} voice" : $"voice {OctaveWords()}";
        Stand.DrawHeader(canvas, passage.Title.Length > 0 ? passage.Title : "own passage", $"{LoopWords()} of {passage.Bars.Count}", TempoWords(), Stand.Profile.TuningName, voice);
        int columns = Math.Max(1, (canvas.Width - LabelWidth - 1) / ColumnWidth);
        int careRows = Math.Clamp(report.Moments.Max(moment => moment.Cares.Count), 1, canvas.Height >= TallFrom ? MostCareRows : FewCareRows);
        int rows = PlainRows + careRows;
        int y = FirstRow;
        if (FirstRow + ((report.Moments.Count + columns - 1) / columns * (rows + 1)) + RowsBelow <= canvas.Height)
        {
            // A window that holds all of it shows all of it, line under line.
            foreach (PassageMoment[] line in report.Moments.Chunk(columns))
            {
                y = DrawMoments(canvas, y, line, careRows) + 1;
            }

            y--;
        }
        else
        {
            int first = Math.Clamp(_moment - (columns / 2), 0, Math.Max(0, report.Moments.Count - columns));
            y = DrawMoments(canvas, y, [.. report.Moments.Skip(first).Take(columns)], careRows);
        }

        canvas.Rule(y++);
        foreach (string line in AtLines(report.Moments[_moment]))
        {
            y = y < canvas.Height - 5 ? canvas.Paragraph(line.StartsWith(' ') ? 4 : 1, y, canvas.Width - 5, line.TrimStart()) : y;
        }

        DrawHelp(canvas, Math.Min(y + 1, canvas.Height - 4));
        DrawMarkedLine(canvas, "Up Down other  Left Right moment  , . tempo  r loop  n type  Tab care  h keys");
    }

    /// <summary>One line of moments as figured rows.</summary>
    private int DrawMoments(Canvas canvas, int y, PassageMoment[] shown, int careRows)
    {
        DrawLoop(canvas, y++, shown);
        Row(canvas, y++, "bar.beat", shown, moment => moment.Place, Ink.Quiet);
        Row(canvas, y++, "P", shown, moment => NoteOf(moment.Played, moment.PlayedBegins));
        Row(canvas, y++, "S", shown, moment => NoteOf(moment.Sung, moment.SungBegins));
        Row(canvas, y++, "between", shown, moment => PassageWords.Short(moment.Between));
        Row(canvas, y++, "made", shown, moment => PassageWords.Made(moment, Stand.Memory.Now.Naming));
        for (int i = 0; i < careRows; i++)
        {
            Row(canvas, y++, i == 0 ? "care" : "", shown, moment => CareOf(moment.Cares, i, careRows));
        }

        Row(canvas, y++, "last P, c", shown, moment => LastOf(VoiceRole.Played, moment, moment.PlayedBegins));
        Row(canvas, y++, "last S, c", shown, moment => LastOf(VoiceRole.Sung, moment, moment.SungBegins));
        canvas.Write(1, y, "now", Ink.Quiet);
        int here = Array.IndexOf(shown, _report!.Moments[_moment]);
        if (here >= 0)
        {
            canvas.Put(LabelWidth + 1 + (here * ColumnWidth), y, Glyphs.Marked, Ink.Marked);
        }

        return y + 1;
    }

    private void DrawLoop(Canvas canvas, int y, PassageMoment[] shown)
    {
        int from = Array.FindIndex(shown, moment => moment.Bar >= _fromBar && moment.Bar <= _toBar);
        int to = Array.FindLastIndex(shown, moment => moment.Bar >= _fromBar && moment.Bar <= _toBar);
        if (from < 0)
        {
            return;
        }

        int x = LabelWidth + 1 + (from * ColumnWidth);
        int end = Math.Min(canvas.Width - 1, LabelWidth + (ColumnWidth * (to + 1)));
        canvas.Fill(x, y, Math.Max(1, end - x), Glyphs.Rail);
        // The loop closes where its last moment stands, not where the window ends.
        canvas.Write(x, y, shown[from] == _report!.Moments.First(moment => moment.Bar >= _fromBar) ? "[" : "", Ink.Text);
        string loop = $" loop {LoopWords()} ";
        if (loop.Length + 4 > end - x)
        {
            // The heading says which bars; here they have no room.
            loop = " loop ";
        }

        canvas.Write(x + 2, y, loop, Ink.Text);
        canvas.Write(end - 1, y, shown[to] == _report.Moments.Last(moment => moment.Bar <= _toBar) ? "]" : "", Ink.Text);
    }

    private void Row(Canvas canvas, int y, string label, PassageMoment[] moments, Func<PassageMoment, string> cell, Ink ink = Ink.Text)
    {
        canvas.Write(1, y, label, Ink.Quiet);
        for (int i = 0; i < moments.Length; i++)
        {
            string text = cell(moments[i]);
            bool isHere = moments[i] == _report!.Moments[_moment];
            canvas.Write(LabelWidth + 1 + (i * ColumnWidth), y, text.Length < ColumnWidth ? text : text[..(ColumnWidth - 1)], isHere ? Ink.Marked : ink);
        }
    }

    private string NoteOf(Pitch? note, bool begins) => note is { } sounding ? begins ? Stand.Name(sounding) : "held" : "-";

    // Each named in a row of its own; what finds none is counted in the last, and told whole below.
    private static string CareOf(IReadOnlyList<Care> cares, int row, int rows) => row >= cares.Count ? ""
        : row == rows - 1 && cares.Count > rows ? string.Create(CultureInfo.InvariantCulture, $"{cares.Count - row} more")
        : PassageWords.WordOf(cares[row]);

    private string LastOf(VoiceRole role, PassageMoment moment, bool begins)
    {
        if (!begins || !_last.TryGetValue((role, moment.Place), out NoteResult? note))
        {
            return "";
        }

        return note switch
        {
            { Cents: { } cents, LateSeconds: > 0.2 } => string.Create(CultureInfo.InvariantCulture, $"{cents:+0;-0;0} late"),
            { Cents: { } cents } => string.Create(CultureInfo.InvariantCulture, $"{cents:+0;-0;0}"),
            { BeatsPerSecond: { } beats } => string.Create(CultureInfo.InvariantCulture, $"{beats:0.0} /s"),
            { IsFog: true } => "fog",
            _ => "absent",
        };
    }

    private IEnumerable<string> AtLines(PassageMoment moment)
    {
        string pair = moment is { Played: { } played, Sung: { } sung, Cents: { } cents }
            ? string.Create(CultureInfo.InvariantCulture, $"{moment.Between} {Stand.Name(played)} + {Stand.Name(sung)}, {cents:0} c")
            : moment.Played is { } alone ? $"{Stand.Name(alone)} played alone" : $"{Stand.Name(moment.Sung!.Value)} sung alone";
        yield return $"AT {moment.Place}   {pair}";
        if (PassageWords.MadeSentence(moment, Stand.Memory.Now.Naming) is { } made)
        {
            yield return $"   {made}";
        }

        if (moment.Cares.Count > 0)
        {
            yield return "   " + string.Join(' ', moment.Cares.Select(Sentence));
        }

        if (_octaves == 0 && _report!.Suggestion is { } other)
        {
            yield return string.Create(CultureInfo.InvariantCulture,
                $"   Octave choice (v): {(other.Octaves > 0 ? "higher" : "lower")} brings {other.OutsideNow - other.OutsideThen} of {other.OutsideNow} notes back into your range.");
        }
    }

    private string Sentence(Care care) => care switch
    {
        Care.PlayedRange => "P lies outside the usual range of the instrument.",
        Care.SungRange => $"S lies outside your {Stand.Name(Stand.Profile.LowestSung)} to {Stand.Name(Stand.Profile.HighestSung)}.",
        Care.Register => "The voice changes register here.",
        Care.PlayedLeap => "P leaps.",
        Care.SungLeap => "S leaps.",
        Care.BothLeap => "Both leap at once: hear the second pair first.",
        Care.Fog => "One lies on the other's lines: listen to the beats, they say more than cents.",
        _ => Stand.Memory.Now.SpeakerLowestHz is null
            ? string.Create(CultureInfo.InvariantCulture, $"What they make lies under {UntestedLowestHz:0} Hz, where small speakers end: Set-up, line 2, tests yours.")
            : "What they make is too low for the speaker: not louder, but headphones.",
    };

    private void DrawHelp(Canvas canvas, int y)
    {
        int x = canvas.Write(1, y, "HELP LEFT   ", Ink.Text);
        foreach (HelpStep step in Helps)
        {
            string word = step switch
            {
                HelpStep.BothTones => "both tones",
                HelpStep.OtherTone => "other tone",
                HelpStep.Cue => "cue",
                HelpStep.Click => "click",
                _ => "nothing",
            };
            bool isHere = step == _help.Step;
            x = canvas.Write(x, y, isHere ? $"{Glyphs.Marked} {word}" : word, isHere ? Ink.Marked : Ink.Quiet);
            x = step == HelpStep.Nothing ? x : canvas.Write(x, y, "  >  ", Ink.Quiet);
        }

        canvas.Write(1, y + 1, string.Create(CultureInfo.InvariantCulture,
            $"TURN {_turns + 1} of this loop   clean turns in a row: {_help.CleanInRow}; two take one help away"), Ink.Quiet);
    }
}
