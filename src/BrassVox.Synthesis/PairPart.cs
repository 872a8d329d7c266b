namespace BrassVox.Synthesis;

/// <summary>One thing in the sound of a pair that can be heard alone: P, S, or a resultant.</summary>
/// <param name="Index">Place in <see cref="IPairEngine.Parts"/>; 0 is P, 1 is S, the rest are resultants.</param>
/// <param name="Name">P, S, or the formula: P+S, 2P-S.</param>
/// <param name="Played">The integer m of m P + n S.</param>
/// <param name="Sung">The integer n of m P + n S.</param>
public sealed record PairPart(int Index, string Name, int Played, int Sung);
