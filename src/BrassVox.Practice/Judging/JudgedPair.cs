using System.Globalization;

namespace BrassVox.Practice.Judging;

/// <summary>What the two tones did together.</summary>
/// <param name="MedianBeatsPerSecond">Median beat rate where it was known, in beats per second; null when it never was.</param>
/// <param name="StillSeconds">How long they surely beat slower than <paramref name="StillBelowPerSecond"/>.</param>
/// <param name="BeatingSeconds">How long they surely beat faster than that.</param>
/// <param name="IntervalErrorCents">Median error of the interval S above P where both pitches stand, in cents; null when never.</param>
/// <param name="SeparableSeconds">How long both pitches could be told.</param>
/// <param name="FogSeconds">How long the two could not be told apart; there beats are judged, not cents.</param>
/// <param name="StillBelowPerSecond">Under how many beats a second they were called still: what the exercise asks, else <see cref="StillBelowPerSecondAtBb2"/> in proportion to P. Before it was kept it was 1.</param>
public sealed record JudgedPair(
    double? MedianBeatsPerSecond, double StillSeconds, double BeatingSeconds, double? IntervalErrorCents, double SeparableSeconds, double FogSeconds,
    double StillBelowPerSecond = JudgedPair.StillBelowPerSecondAtBb2)
{
    /// <summary>What is called still in a take over Bb2, in beats per second; elsewhere in proportion to P.</summary>
    public const double StillBelowPerSecondAtBb2 = 1;

    /// <summary>What still means, in words: under 0.5 beats a second.</summary>
    /// <param name="belowPerSecond">The limit in beats per second.</param>
    public static string StillMeans(double belowPerSecond) => string.Create(CultureInfo.InvariantCulture, $"under {belowPerSecond:0.0} /s");
}
