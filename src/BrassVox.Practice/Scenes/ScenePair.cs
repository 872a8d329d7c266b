using BrassVox.Theory;

namespace BrassVox.Practice.Scenes;

/// <summary>The two tones of a scene.</summary>
/// <param name="Played">P.</param>
/// <param name="Sung">S.</param>
/// <param name="Tuning">equal, just, pythagorean or meantone; all but equal from P.</param>
/// <param name="PlayedCents">Cents added to P, -600 to 600.</param>
/// <param name="SungCents">Cents added to S, -600 to 600.</param>
public sealed record ScenePair(Pitch Played, Pitch Sung, string Tuning, double PlayedCents = 0, double SungCents = 0);
