namespace BrassVox.Practice.Sessions;

/// <summary>How often the answer was right at one difficulty.</summary>
/// <param name="Difficulty">The value.</param>
/// <param name="Right">Right answers.</param>
/// <param name="Of">Trials.</param>
public sealed record LevelShare(double Difficulty, int Right, int Of);
