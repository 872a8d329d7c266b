using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>The two notes that an exercise's intervals count from, for one player.</summary>
/// <param name="Played">P.</param>
/// <param name="Sung">S.</param>
/// <param name="PlayedHz">P in Hz.</param>
/// <param name="SungHz">S in Hz.</param>
/// <param name="Tuning">The tuning in force.</param>
/// <param name="A4Hz">A4 in Hz.</param>
public sealed record ResolvedPair(Pitch Played, Pitch Sung, double PlayedHz, double SungHz, Tuning Tuning, double A4Hz);
