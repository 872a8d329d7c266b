namespace BrassVox.App.Tui.Pictures;

/// <summary>A resultant and its level.</summary>
/// <param name="Played">The integer m of m P + n S.</param>
/// <param name="Sung">The integer n of m P + n S.</param>
/// <param name="LevelDb">Level in dB on the spectrum's scale.</param>
internal readonly record struct ResultantLevel(int Played, int Sung, double LevelDb);
