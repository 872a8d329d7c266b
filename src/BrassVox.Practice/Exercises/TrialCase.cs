namespace BrassVox.Practice.Exercises;

/// <summary>One possible trial: which sounds, and which answer is true.</summary>
/// <param name="Sounds">Ids of the sounds, in order.</param>
/// <param name="Says">What is said after the answer.</param>
/// <param name="Option">The true option of a choice; null where the truth is computed (a rate).</param>
public sealed record TrialCase(IReadOnlyList<string> Sounds, string Says, string? Option = null);
