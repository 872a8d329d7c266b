namespace BrassVox.Practice.Planning;

/// <summary>One day of the week: planned and done. Nothing is counted from day to day.</summary>
/// <param name="Day">The day.</param>
/// <param name="PlannedMinutes">Minutes planned; 0 on days that are free.</param>
/// <param name="DoneMinutes">Minutes practised.</param>
/// <param name="SungMinutes">Minutes sung among them.</param>
public sealed record PlanDay(DateOnly Day, int PlannedMinutes, double DoneMinutes, double SungMinutes);
