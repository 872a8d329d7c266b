namespace BrassVox.Analysis.Reports;

/// <summary>A regular swing of the pitch.</summary>
/// <param name="RateHz">Swings per second, 3 to 9.</param>
/// <param name="WidthCents">Greatest distance from the centre to one side, in cents.</param>
public readonly record struct Vibrato(double RateHz, double WidthCents);
