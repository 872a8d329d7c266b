using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Lays the number a player expected beside the one that was measured. Pure.</summary>
public static class Predictions
{
    /// <summary>A prediction this near is right, in cents. Our own curriculum, to be tried with players.</summary>
    public const double WithinCents = 10;

    private const double MostCents = 600;
    private const double MostBeats = 50;

    /// <summary>The number an exercise asks for before each take; null for none, or where today's options leave that tone to the program.</summary>
    /// <param name="resolved">The exercise.</param>
    public static PredictedFigure? AskedBy(ResolvedExercise resolved)
    {
        PlayTask[] tasks = [.. resolved.Steps.Select(step => step.Task).OfType<PlayTask>()];
        return resolved.Exercise.PlayAlong?.Predict switch
        {
            PredictedFigure.PlayedCents when !tasks.Any(task => task.Played is not null) => null,
            PredictedFigure.SungCents when !tasks.Any(task => task.Sung is not null) => null,
            PredictedFigure.Beats when !tasks.Any(task => task is { Played: not null, Sung: not null }) => null,
            var figure => figure,
        };
    }

    /// <summary>The question, as the beginning of a sentence.</summary>
    /// <param name="figure">What is predicted.</param>
    public static string Question(PredictedFigure figure) => figure switch
    {
        PredictedFigure.PlayedCents => "I expect my played tone to lie, in cents, at",
        PredictedFigure.SungCents => "I expect my sung tone to lie, in cents, at",
        _ => "I expect the pair to beat, a second,",
    };

    /// <summary>The numbers offered where none is typed: as far apart as a prediction may be off.</summary>
    /// <param name="figure">What is predicted.</param>
    public static IReadOnlyList<double> Offered(PredictedFigure figure) =>
        figure == PredictedFigure.Beats ? [0, 0.5, 1, 2, 3, 4, 6, 9, 12] : [-40, -30, -20, -10, 0, 10, 20, 30, 40];

    /// <summary>Reads a number as a prediction.</summary>
    /// <param name="figure">What is predicted.</param>
    /// <param name="text">The number, decimal point, sign allowed.</param>
    /// <returns>The prediction, or null and what to write instead.</returns>
    public static (Prediction? Prediction, string? Problem) Read(PredictedFigure figure, string text)
    {
        bool isBeats = figure == PredictedFigure.Beats;
        (double least, double most) = isBeats ? (0, MostBeats) : (-MostCents, MostCents);
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && value >= least && value <= most
            ? (new Prediction(figure, value), null)
            : (null, string.Create(CultureInfo.InvariantCulture, $"\"{text}\" is no expected number of {(isBeats ? "beats a second" : "cents")}; write one from {least:0} to {most:0}, as in {(isBeats ? "1.5" : "-10")}."));
    }

    /// <summary>Compares.</summary>
    /// <param name="prediction">What was expected.</param>
    /// <param name="result">What the take came to.</param>
    /// <param name="sungHz">S as asked, in Hz, over 0: beats are right within what 10 c of it come to.</param>
    public static SayingCheck Compare(Prediction prediction, TakeResult result, double sungHz)
    {
        double? measured = prediction.Figure switch
        {
            PredictedFigure.PlayedCents => result.Played?.OffsetCents,
            PredictedFigure.SungCents => result.Sung?.OffsetCents,
            _ => result.Pair.MedianBeatsPerSecond,
        };
        bool isBeats = prediction.Figure == PredictedFigure.Beats;
        string tone = prediction.Figure switch { PredictedFigure.PlayedCents => "P ", PredictedFigure.SungCents => "S ", _ => "" };
        string said = $"expected {tone}{Text(prediction.Value)}";
        if (measured is not { } figure)
        {
            return new SayingCheck(said, "not told", null);
        }

        double within = isBeats ? Cents.Above(sungHz, WithinCents) - sungHz : WithinCents;
        string near = isBeats ? string.Create(CultureInfo.InvariantCulture, $"{within:0.0} /s") : string.Create(CultureInfo.InvariantCulture, $"{within:0} c");
        double off = Math.Abs(figure - prediction.Value);
        return new SayingCheck(said, $"it was {Text(figure)}; near enough is within {near}", off <= within);

        string Text(double value) => isBeats
            ? string.Create(CultureInfo.InvariantCulture, $"{value:0.0} /s")
            : string.Create(CultureInfo.InvariantCulture, $"{value:+0;-0;0} c");
    }
}
