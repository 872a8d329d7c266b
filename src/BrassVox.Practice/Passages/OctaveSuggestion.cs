namespace BrassVox.Practice.Passages;

/// <summary>Another octave for the whole voice, and what that makes of the tones that are made.</summary>
/// <param name="Octaves">Octaves up, negative when down.</param>
/// <param name="OutsideNow">Sung notes outside the easy range as written.</param>
/// <param name="OutsideThen">The same in the other octave.</param>
/// <param name="FogNow">Moments on one another's lines as written.</param>
/// <param name="FogThen">The same in the other octave.</param>
/// <param name="Changes">What the difference tone of each pair becomes, each pair once.</param>
public sealed record OctaveSuggestion(int Octaves, int OutsideNow, int OutsideThen, int FogNow, int FogThen, IReadOnlyList<string> Changes);
