using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Play along draws before the reveal.</summary>
internal sealed partial class PlayAlongRoom
{
    private const int SecondsColumn = 50;
    private const int DoubledFromWidth = 160;
    private const int DoubledFromHeight = 44;
    private const int AskedFromHeight = 36;
    private const string ReadyCare = "Play soft, sing full and easy. Headphones keep the drone out of the microphone; one ear stays free.";

    /// <summary>What is to be done in the next take, step after step; the same asked several times running stands once, with how often.</summary>
    private IReadOnlyList<string> Prompts
    {
        get
        {
            List<(string Prompt, int Times)> runs = [];
            foreach (ExerciseStep step in _next.Steps)
            {
                if (runs.Count > 0 && string.Equals(runs[^1].Prompt, step.Prompt, StringComparison.Ordinal))
                {
                    runs[^1] = (step.Prompt, runs[^1].Times + 1);
                }
                else
                {
                    runs.Add((step.Prompt, 1));
                }
            }

            return [.. runs.Select(run => run.Times == 1 ? run.Prompt : string.Create(CultureInfo.InvariantCulture, $"{run.Times} times: {run.Prompt}"))];
        }
    }

    /// <summary>What the take is held against, one thing a line.</summary>
    private IReadOnlyList<string> AsAsked =>
        [.. CriterionText.Lines(_next.Steps.Select(step => step.Task).OfType<PlayTask>().SelectMany(task => task.Criteria), Stand.Profile.Aim).Select(line => $"as asked: {line}")];

    // Where the whole name leaves no room for the rest, the short one stands.
    private string[] Heading(Canvas canvas, string phase)
    {
        string[] whole = Heading(phase, HasOptions ? $"{_exercise.Exercise.Number} {_exercise.Exercise.Name}" : _exercise.Exercise.Name);
        return HasOptions && !Stand.HeaderHolds(canvas, whole) ? Heading(phase, _exercise.Exercise.InShort) : whole;
    }

    private string[] Heading(string phase, string name) =>
    [
        phase,
        name,
        string.Create(CultureInfo.InvariantCulture, $"take {Math.Max(1, _session?.TakeNumber ?? 1)}"),
        $"{Stand.Name(_exercise.Pair.Played)} + {Stand.Name(_exercise.Pair.Sung)}",
        _exercise.Pair.Tuning.Name,
    ];

    private void DrawReady(Canvas canvas)
    {
        Stand.DrawHeader(canvas, Heading(canvas, "ready"));
        int width = canvas.Width - 4;
        // What can hurt has its rows first, above whatever message stands; the text has those that are left.
        string cares = string.Join("; ", _exercise.Exercise.Cautions.Select(Cautions.ShortOf));
        string care = cares.Length > 0 ? $"{ReadyCare} Care: {cares}." : ReadyCare;
        int end = canvas.Height - 1 - Stand.MessageRows(canvas.Width) - Canvas.RowsOf(width, care);
        canvas.Paragraph(2, end, width, care, Ink.Quiet);
        string reading = PlayerWords.Reading(Stand, _exercise.Pair.Played);
        List<(string Text, Ink Ink)[]> blocks =
        [
            [(_exercise.Exercise.About, Ink.Text)],
            [.. Prompts.Select(prompt => (prompt, Ink.Text))],
            [
                ($"Listen for: {_exercise.Exercise.ListenFor}", Ink.Text),
                .. reading.Length > 0 ? [($"P sounds {Stand.Name(_exercise.Pair.Played)}; {reading}.", Ink.Text)] : Array.Empty<(string, Ink)>(),
                .. _exercise.Notes.Select(note => (note, Ink.Text)),
            ],
            [
                .. AsAskedInRoom(canvas).Select(line => (line, Ink.Quiet)),
                ("Enter: the cue sounds, then it is dark. Afterwards you say how it was, and only then look.", Ink.Text),
                (MicrophoneLine(), Ink.Quiet),
                .. HasOptions ? [($"{OptionWords} Change it: o who plays and sings, m the drone{(HasTempo ? ", comma and full stop the tempo" : "")}.", Ink.Quiet)] : Array.Empty<(string, Ink)>(),
            ],
        ];
        int Rows() => blocks.Sum(block => block.Sum(line => Canvas.RowsOf(width, line.Text)));
        if (Rows() > end - 3)
        {
            // What the exercise is for stands in the list that it was chosen from.
            blocks.RemoveAt(0);
        }

        int gaps = Math.Max(0, end - 3 - Rows());
        int y = 3;
        foreach ((string Text, Ink Ink)[] block in blocks)
        {
            y += y > 3 && gaps-- > 0 ? 1 : 0;
            foreach ((string text, Ink ink) in block)
            {
                y = canvas.Fitted(2, y, width, Math.Max(0, end - y), text, ink);
            }
        }

        DrawMarkedLine(canvas, "Up Down other  - + level  Space tacet  Esc leave  h keys");
    }

    // In a small window the steps and the care need the rows.
    private IReadOnlyList<string> AsAskedInRoom(Canvas canvas) => canvas.Height >= AskedFromHeight ? AsAsked : [];

    // Why it could not be opened is said below, once.
    private string MicrophoneLine() => _listener.Trouble is not null
        ? "No microphone: the take runs, and nothing of it can be measured. Set-up, line 3, looks for one."
        : _listener.IsHearing ? $"Microphone: {_listener.Name}." : "The microphone is opening.";

    private void DrawDark(Canvas canvas)
    {
        PlayAlongSession session = _session!;
        bool cue = _phase == PlayAlongPhase.Cue;
        Stand.DrawHeader(canvas, Heading(canvas, cue ? "cue" : "dark"));
        double seconds = session.TakeSeconds;
        // Twice as large where the window allows: it is read from where one plays.
        int size = canvas.Width >= DoubledFromWidth && canvas.Height >= DoubledFromHeight ? 2 : 1;
        int sungTop = 3 + (8 * size);
        int words = 2 + (20 * size);
        DrawShape(canvas, 3, VoiceRole.Played, session, cue, size);
        DrawShape(canvas, sungTop, VoiceRole.Sung, session, cue, size);
        canvas.Write(SecondsColumn * size, 3, cue ? "BEGIN IN" : "SECONDS LEFT", Ink.Quiet);
        double shown = cue ? -seconds : Math.Max(0, _exercise.TakeSeconds - seconds);
        BigGlyphs.Write(canvas, SecondsColumn * size, 4, Math.Ceiling(shown).ToString("0", CultureInfo.InvariantCulture), Ink.Text, size);

        string prompt = session.StepIndex is { } index ? _exercise.Steps[index].Prompt : cue ? _exercise.Steps[0].Prompt : "Rest.";
        canvas.Paragraph(words, sungTop, canvas.Width - words - 2, prompt);
        canvas.Paragraph(words, sungTop + 3, canvas.Width - words - 2, cue
            ? "The cue sounds: hear where you will be. Breathe."
            : "Solid: asked for. Dotted: not now. A word beside it says what the program sounds.", Ink.Quiet);
        canvas.Write(2, sungTop + 2 + (5 * size), "Nothing on this screen knows your pitch.");
        DrawMarkedLine(canvas, "Up Down other   Space tacet   Esc leave   h keys");
    }

    private void DrawShape(Canvas canvas, int y, VoiceRole role, PlayAlongSession session, bool cue, int size)
    {
        bool played = role == VoiceRole.Played;
        Ink ink = played ? Ink.Played : Ink.Sung;
        string drone = !cue && session.IsDroneNow(role) ? "   drone" : "";
        canvas.Write(2, y, $"{(played ? "PLAYED" : "SUNG")}  {Stand.Name(played ? _exercise.Pair.Played : _exercise.Pair.Sung)}{drone}", ink);
        bool asked = !cue && session.IsAskedNow(role);
        BigGlyphs.Draw(canvas, 2, y + 1, played ? BigGlyphs.Square : BigGlyphs.Disc, asked ? Glyphs.Block : Glyphs.Asked, ink, size);
    }

    private void DrawSentence(Canvas canvas)
    {
        Stand.DrawHeader(canvas, Heading(canvas, "say it first"));
        canvas.Paragraph(2, 3, canvas.Width - 4, "The take is over, unseen. Before you look, finish the sentence.");
        for (int line = 0; line < _sentence.Count; line++)
        {
            int y = 6 + (2 * line);
            canvas.Write(6, y, _sentence.Subject(line), line <= _sentence.Line ? Ink.Text : Ink.Quiet);
            int x = 30;
            for (int word = 0; word < _sentence.Words(line).Count; word++)
            {
                string text = _sentence.Words(line)[word];
                bool marked = line == _sentence.Line && word + 1 == MarkedIndex;
                bool taken = _sentence.Chosen(line) == word;
                string shown = marked ? $"{Glyphs.Marked}{text} " : taken ? $"[{text}]" : $" {text} ";
                x = canvas.Write(x, y, shown, marked ? Ink.Marked : line < _sentence.Line && !taken ? Ink.Quiet : Ink.Text) + 3;
            }
        }

        canvas.Paragraph(2, 18, canvas.Width - 4, _sentence.Whole is null
            ? "It opens when the sentence is whole. Esc leaves without looking."
            : "The sentence is whole; the take is being measured.");
        DrawKeyLine(canvas, 0, "Left Right or back pedal: mark a word   Enter takes it   z undo   h keys");
    }
}
