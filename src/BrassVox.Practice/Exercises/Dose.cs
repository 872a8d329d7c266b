namespace BrassVox.Practice.Exercises;

/// <summary>How much of an exercise at a time.</summary>
/// <param name="Minutes">Minutes in one sitting, &gt; 0.</param>
/// <param name="Takes">Takes or trials in a set, at least 1.</param>
/// <param name="Pass">How many of them are to succeed, 1 to <paramref name="Takes"/>.</param>
/// <param name="RestSeconds">Rest between takes in seconds, at least 0.</param>
public sealed record Dose(double Minutes, int Takes, int Pass, double RestSeconds = 0);
