namespace BrassVox.Practice.Log;

/// <summary>One week of takes.</summary>
/// <param name="Monday">The week's Monday.</param>
/// <param name="Value">The median take; null in a week without takes, a week of rest.</param>
/// <param name="Takes">How many takes.</param>
public sealed record WeekFigure(DateOnly Monday, double? Value, int Takes);
