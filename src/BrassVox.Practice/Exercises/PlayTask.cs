using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Exercises;

/// <summary>Play, sing, or both, along the asked paths.</summary>
/// <param name="Played">What is asked of P; null when nothing.</param>
/// <param name="Sung">What is asked of S; null when nothing.</param>
/// <param name="Criteria">How it is judged.</param>
public sealed record PlayTask(AskedPart? Played, AskedPart? Sung, IReadOnlyList<Criterion> Criteria) : PlayerTask;
