namespace BrassVox.Synthesis.Living;

/// <summary>A player's lips on one instrument.</summary>
/// <param name="Q">Quality factor of the lips, 1 to 20.</param>
/// <param name="ClosingPressurePa">Pressure that moves the lips by their rest opening at mf, in Pa. It sets their mass per area at every pitch.</param>
/// <param name="RestOpeningMm">Opening without pressure at mf, in mm.</param>
/// <param name="WidthMm">Width of the opening in mm.</param>
public sealed record LipSettings(double Q, double ClosingPressurePa, double RestOpeningMm, double WidthMm);
