namespace BrassVox.Practice.Exercises;

/// <summary>One thing that is heard in a listening trial.</summary>
/// <param name="Id">Name within the exercise.</param>
/// <param name="Played">Path of P; empty when P is silent.</param>
/// <param name="Sung">Path of S; empty when S is silent.</param>
/// <param name="CouplingDepth">0 separate to 1.</param>
/// <param name="Resultants">Names of the resultants that stay audible when coupled, as in S-P; null keeps all.</param>
/// <param name="PlayedNote">A played note of this sound's own; S keeps its interval. Null keeps the pair's.</param>
/// <param name="SungAbove">An interval from P to S of this sound's own; null keeps the pair's.</param>
/// <param name="Tuning">A tuning of this sound's own; null keeps the pair's.</param>
public sealed record SoundPlan(
    string Id,
    IReadOnlyList<Motion> Played,
    IReadOnlyList<Motion> Sung,
    double CouplingDepth = 0,
    IReadOnlyList<string>? Resultants = null,
    Theory.Pitch? PlayedNote = null,
    Interval? SungAbove = null,
    string? Tuning = null);
