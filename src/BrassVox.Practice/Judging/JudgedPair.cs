namespace BrassVox.Practice.Judging;

/// <summary>What the two tones did together.</summary>
/// <param name="MedianBeatsPerSecond">Median beat rate where it was known, in beats per second; null when it never was.</param>
/// <param name="StillSeconds">How long they surely beat less than once a second.</param>
/// <param name="BeatingSeconds">How long they surely beat faster than that.</param>
/// <param name="IntervalErrorCents">Median error of the interval S above P where both pitches stand, in cents; null when never.</param>
/// <param name="SeparableSeconds">How long both pitches could be told.</param>
/// <param name="FogSeconds">How long the two could not be told apart; there beats are judged, not cents.</param>
public sealed record JudgedPair(
    double? MedianBeatsPerSecond, double StillSeconds, double BeatingSeconds, double? IntervalErrorCents, double SeparableSeconds, double FogSeconds);
