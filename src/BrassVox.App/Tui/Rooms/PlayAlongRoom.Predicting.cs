using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;

namespace BrassVox.App.Tui.Rooms;

/// <summary>The number a player says before a take, where the exercise asks for one.</summary>
internal sealed partial class PlayAlongRoom
{
    private string PredictionQuestion => Predictions.AskedBy(_exercise) is { } figure ? Predictions.Question(figure) : "";

    private static string OfferedWords(PredictedFigure figure, double value) =>
        value.ToString(figure == PredictedFigure.Beats ? "0.#" : "+0;-0;0", CultureInfo.InvariantCulture);

    private void AskNumber() => Stand.Ask(new TextBox($"{PredictionQuestion}:", text =>
    {
        if (Predictions.AskedBy(_exercise) is not { } figure)
        {
            return null;
        }

        (Prediction? prediction, string? problem) = Predictions.Read(figure, text);
        if (prediction is null)
        {
            return new TextFault(problem!, -1);
        }

        BeginExpecting(prediction);
        return null;
    }));

    private void DrawPrediction(Canvas canvas)
    {
        Stand.DrawHeader(canvas, Heading(canvas, "say it before"));
        int y = canvas.Paragraph(2, 3, canvas.Width - 4, "Before the take, a number. The reveal lays it beside what was measured; within 10 c it counts as right.");
        canvas.Write(6, y + 1, PredictionQuestion);
        int x = 8;
        for (int i = 0; i < Choices.Count; i++)
        {
            string text = Choices[i].Label;
            if (x + text.Length + 2 > canvas.Width)
            {
                x = 8;
                y += 2;
            }

            x = canvas.Write(x, y + 3, i == MarkedIndex ? $"{Glyphs.Marked}{text} " : $" {text} ", i == MarkedIndex ? Ink.Marked : Ink.Text) + 2;
        }

        canvas.Paragraph(2, y + 6, canvas.Width - 4, "High is plus, low is minus. Then the cue sounds and it is dark.", Ink.Quiet);
        DrawKeyLine(canvas, 0, "Left Right or back pedal: other number   Enter or forward pedal: take it");
    }
}
