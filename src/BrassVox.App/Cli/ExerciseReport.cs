using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;

namespace BrassVox.App.Cli;

/// <summary>What <c>exercise list --json</c> prints for each exercise.</summary>
internal sealed record ExerciseLineReport(
    string Id, int Number, string Name, string Kind, double Minutes, IReadOnlyList<string> Prerequisites);

/// <summary>What <c>exercise show --json</c> prints.</summary>
internal sealed record ExerciseReport(
    string Id,
    int Number,
    string Name,
    string Kind,
    string About,
    string ListenFor,
    string Source,
    string Instrument,
    string Voice,
    string Played,
    double PlayedHz,
    string Sung,
    double SungHz,
    string Tuning,
    double A4Hz,
    IReadOnlyList<string> Notes,
    double Minutes,
    int Takes,
    int Pass,
    IReadOnlyList<string> Prerequisites,
    IReadOnlyList<string> Cautions,
    string? Question,
    IReadOnlyList<string>? Options,
    IReadOnlyList<StepReport> Steps)
{
    public static IReadOnlyList<ExerciseLineReport> All(ExerciseLibrary library) =>
        [.. library.Exercises.Select(exercise => new ExerciseLineReport(
            exercise.Id, exercise.Number, exercise.Name, Word(exercise), exercise.Dose.Minutes, exercise.Prerequisites))];

    public static ExerciseReport Of(ResolvedExercise resolved)
    {
        Exercise exercise = resolved.Exercise;
        return new ExerciseReport(
            exercise.Id, exercise.Number, exercise.Name, Word(exercise), exercise.About, exercise.ListenFor, exercise.Source,
            resolved.Profile.Instrument.ToString().ToLowerInvariant(), resolved.Profile.Voice.ToString().ToLowerInvariant(),
            resolved.Pair.Played.ToString(), Math.Round(resolved.Pair.PlayedHz, 6), resolved.Pair.Sung.ToString(), Math.Round(resolved.Pair.SungHz, 6),
            resolved.Pair.Tuning.Name, resolved.Pair.A4Hz, resolved.Notes, exercise.Dose.Minutes, exercise.Dose.Takes, exercise.Dose.Pass,
            exercise.Prerequisites, [.. exercise.Cautions.Select(Practice.Exercises.Cautions.TextOf)],
            exercise.Listening?.Question, (exercise.Listening?.Answer as ChoiceAnswer)?.Options,
            [.. resolved.Steps.Select(StepReport.Of)]);
    }

    public static string Word(Exercise exercise) => exercise.IsListening ? "listen" : "play";
}

/// <summary>One step of a take.</summary>
internal sealed record StepReport(
    string Id, string Prompt, double DurationSeconds, IReadOnlyList<SegmentReport> Played, IReadOnlyList<SegmentReport> Sung, IReadOnlyList<Criterion> Criteria)
{
    public static StepReport Of(ExerciseStep step)
    {
        var task = (PlayTask)step.Task;
        return new StepReport(step.Id, step.Prompt, step.DurationSeconds, SegmentReport.Of(task.Played), SegmentReport.Of(task.Sung), task.Criteria);
    }
}

/// <summary>One stretch of an asked path.</summary>
internal sealed record SegmentReport(string Move, double FromSeconds, double ToSeconds, string? Note, double Cents, double? FromHz, double? ToHz)
{
    public static IReadOnlyList<SegmentReport> Of(AskedPart? part) => part is null ? [] : [.. part.Segments.Select(segment => segment.Move == Practice.Exercises.Move.Rest
        ? new SegmentReport("rest", segment.FromSeconds, segment.ToSeconds, null, 0, null, null)
        : new SegmentReport(
            segment.Move.ToString().ToLowerInvariant(), segment.FromSeconds, segment.ToSeconds, segment.Note.ToString(), Math.Round(segment.Cents, 6),
            Math.Round(segment.FromHz, 6), Math.Round(segment.ToHz, 6)))];
}
