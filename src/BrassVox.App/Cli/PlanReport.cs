using BrassVox.Practice.Log;
using BrassVox.Practice.Planning;
using BrassVox.Practice.Profiles;

namespace BrassVox.App.Cli;

/// <summary>A plan as <c>plan --json</c> prints it.</summary>
internal sealed record PlanReport(
    string Player, DateOnly Day, int Minutes, IReadOnlyList<PlanLineReport> Lines, IReadOnlyList<PlanDayReport> Week, string? Body, string Order)
{
    public static PlanReport Of(Player player, PracticePlan plan) => new(
        player.Name,
        plan.Day,
        plan.Minutes,
        [.. plan.Lines.Select(line => new PlanLineReport(
            line.Minutes, line.Kind == PlanLineKind.WarmUp ? "warm-up" : line.Kind.ToString().ToLowerInvariant(),
            [.. line.Exercises.Select(exercise => exercise.Exercise.Id)], line.What(player.NoteNames), line.Because))],
        [.. plan.Week.Select(day => new PlanDayReport(day.Day, day.PlannedMinutes, Math.Round(day.DoneMinutes, 1), SungMinutes.Tenths(60 * day.SungMinutes)))],
        plan.Body,
        plan.Order);
}

/// <summary>One line.</summary>
internal sealed record PlanLineReport(int Minutes, string Kind, IReadOnlyList<string> ExerciseIds, string What, string Because);

/// <summary>One day.</summary>
internal sealed record PlanDayReport(DateOnly Day, int PlannedMinutes, double DoneMinutes, double SungMinutes);
