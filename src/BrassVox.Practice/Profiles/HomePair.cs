using BrassVox.Theory;

namespace BrassVox.Practice.Profiles;

/// <summary>The two notes an instrument and a voice begin from.</summary>
/// <param name="Played">P, concert pitch.</param>
/// <param name="Sung">S, sounding pitch.</param>
public sealed record HomePair(Pitch Played, Pitch Sung);
