namespace BrassVox.Practice.Exercises;

/// <summary>A stretch of time within a step.</summary>
/// <param name="FromSeconds">Begin in seconds.</param>
/// <param name="ToSeconds">End in seconds, later than the begin.</param>
public readonly record struct Window(double FromSeconds, double ToSeconds);
