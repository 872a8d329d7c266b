using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What Play along draws before the reveal.</summary>
internal sealed partial class PlayAlongRoom
{
    private const int SecondsColumn = 50;

    private string[] Heading(string phase) =>
    [
        phase,
        HasOptions ? $"{_exercise.Exercise.Number} {_exercise.Exercise.Name}" : _exercise.Exercise.Name,
        string.Create(CultureInfo.InvariantCulture, $"take {Math.Max(1, _session?.TakeNumber ?? 1)}"),
        $"{Stand.Name(_exercise.Pair.Played)} + {Stand.Name(_exercise.Pair.Sung)}",
        _exercise.Pair.Tuning.Name,
    ];

    private void DrawReady(Canvas canvas)
    {
        Stand.DrawHeader(canvas, Heading("ready"));
        int width = canvas.Width - 4;
        int y = canvas.Paragraph(2, 3, width, _exercise.Exercise.About) + 1;
        foreach (ExerciseStep step in _exercise.Steps)
        {
            y = canvas.Paragraph(2, y, width, step.Prompt);
        }

        y = canvas.Paragraph(2, y + 1, width, $"Listen for: {_exercise.Exercise.ListenFor}");
        string reading = PlayerWords.Reading(Stand, _exercise.Pair.Played);
        if (reading.Length > 0)
        {
            y = canvas.Paragraph(2, y, width, $"P sounds {Stand.Name(_exercise.Pair.Played)}; {reading}.");
        }

        foreach (string note in _exercise.Notes)
        {
            y = canvas.Paragraph(2, y, width, note);
        }

        y = canvas.Paragraph(2, y + 1, width, "Enter: the cue sounds, then it is dark. Afterwards you say how it was, and only then look.");
        y = canvas.Paragraph(2, y, width, MicrophoneLine(), Ink.Quiet);
        if (HasOptions)
        {
            canvas.Paragraph(2, y, width, $"{OptionWords} o who  m drone{(HasTempo ? "  , . tempo" : "")}", Ink.Quiet);
        }

        canvas.Paragraph(2, canvas.Height - 4, width, "Play soft, sing full and easy. Headphones keep the drone out of the microphone; one ear stays free.", Ink.Quiet);
        DrawMarkedLine(canvas, "Up Down other  - + level  Space tacet  Esc leave  h keys");
    }

    private string MicrophoneLine() => _listener.Trouble is { } trouble
        ? $"{trouble} The take runs; nothing can be measured."
        : _listener.IsHearing ? $"Microphone: {_listener.Name}." : "The microphone is opening.";

    private void DrawDark(Canvas canvas)
    {
        PlayAlongSession session = _session!;
        bool cue = _phase == PlayAlongPhase.Cue;
        Stand.DrawHeader(canvas, Heading(cue ? "cue" : "dark"));
        double seconds = session.TakeSeconds;
        DrawShape(canvas, 3, VoiceRole.Played, session, cue);
        DrawShape(canvas, 11, VoiceRole.Sung, session, cue);
        canvas.Write(SecondsColumn, 3, cue ? "BEGIN IN" : "SECONDS LEFT", Ink.Quiet);
        double shown = cue ? -seconds : Math.Max(0, _exercise.TakeSeconds - seconds);
        BigGlyphs.Write(canvas, SecondsColumn, 4, Math.Ceiling(shown).ToString("0", CultureInfo.InvariantCulture), Ink.Text);

        string prompt = session.StepIndex is { } index ? _exercise.Steps[index].Prompt : cue ? _exercise.Steps[0].Prompt : "Rest.";
        canvas.Paragraph(22, 11, canvas.Width - 24, prompt);
        canvas.Paragraph(22, 14, canvas.Width - 24, cue
            ? "The cue sounds: hear where you will be. Breathe."
            : "Solid: asked for. Dotted: not now. A word beside it says what the program sounds.", Ink.Quiet);
        canvas.Write(2, 18, "Nothing on this screen knows your pitch.");
        DrawMarkedLine(canvas, "Up Down other   Space tacet   Esc leave   h keys");
    }

    private void DrawShape(Canvas canvas, int y, VoiceRole role, PlayAlongSession session, bool cue)
    {
        bool played = role == VoiceRole.Played;
        Ink ink = played ? Ink.Played : Ink.Sung;
        string drone = !cue && session.IsDroneNow(role) ? "   drone" : "";
        canvas.Write(2, y, $"{(played ? "PLAYED" : "SUNG")}  {Stand.Name(played ? _exercise.Pair.Played : _exercise.Pair.Sung)}{drone}", ink);
        bool asked = !cue && session.IsAskedNow(role);
        BigGlyphs.Draw(canvas, 2, y + 1, played ? BigGlyphs.Square : BigGlyphs.Disc, asked ? Glyphs.Block : Glyphs.Asked, ink);
    }

    private void DrawSentence(Canvas canvas)
    {
        Stand.DrawHeader(canvas, Heading("say it first"));
        canvas.Paragraph(2, 3, canvas.Width - 4, "The take is over, unseen. Before you look, finish the sentence.");
        for (int line = 0; line < _sentence.Count; line++)
        {
            int y = 6 + (2 * line);
            canvas.Write(6, y, _sentence.Subject(line), line <= _sentence.Line ? Ink.Text : Ink.Quiet);
            int x = 30;
            for (int word = 0; word < _sentence.Words(line).Count; word++)
            {
                string text = _sentence.Words(line)[word];
                bool marked = line == _sentence.Line && word == MarkedIndex;
                bool taken = _sentence.Chosen(line) == word;
                string shown = marked ? $"{Glyphs.Marked}{text} " : taken ? $"[{text}]" : $" {text} ";
                x = canvas.Write(x, y, shown, marked ? Ink.Marked : line < _sentence.Line && !taken ? Ink.Quiet : Ink.Text) + 3;
            }
        }

        canvas.Paragraph(2, 18, canvas.Width - 4, _sentence.Whole is null
            ? "It opens when the sentence is whole. Esc leaves without looking."
            : "The sentence is whole; the take is being measured.");
        canvas.Write(0, canvas.Height - 1, Stand.Letterset.InWords("Left Right or back pedal: other word   Enter takes it   z undo   h keys", isKeyLine: true), Ink.Quiet);
    }
}
