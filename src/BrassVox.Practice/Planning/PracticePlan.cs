namespace BrassVox.Practice.Planning;

/// <summary>A day's plan with its reasons.</summary>
/// <param name="Day">The day.</param>
/// <param name="Minutes">Minutes at hand.</param>
/// <param name="Lines">The lines in order; empty on a day of rest.</param>
/// <param name="Week">The week from Monday to Sunday.</param>
/// <param name="Body">What body notes and sung minutes advise; null when nothing.</param>
/// <param name="Order">Why the next playing exercise is the next; empty when none is planned.</param>
public sealed record PracticePlan(
    DateOnly Day, int Minutes, IReadOnlyList<PlanLine> Lines, IReadOnlyList<PlanDay> Week, string? Body, string Order);
