namespace BrassVox.Practice.Exercises;

/// <summary>What came of fitting an exercise to a player.</summary>
/// <param name="Resolved">The exercise with notes; null when it does not fit.</param>
/// <param name="WhyNot">Why it does not fit and what would; null when it does.</param>
public sealed record Resolution(ResolvedExercise? Resolved, string? WhyNot);
