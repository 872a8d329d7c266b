using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Notes chosen by hand in place of the profile's home pair.</summary>
/// <param name="Played">P.</param>
/// <param name="Sung">S.</param>
public sealed record PairChoice(Pitch Played, Pitch Sung);
