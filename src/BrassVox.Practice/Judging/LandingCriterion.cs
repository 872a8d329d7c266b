namespace BrassVox.Practice.Judging;

/// <summary>The pair comes to stand still: beats slow to under a limit and stay there.</summary>
/// <param name="BelowPerSecondAtBb2">Beats per second on Bb2 (A4 = 440); elsewhere the same in cents, so the limit follows P.</param>
/// <param name="ForSeconds">How long without a break, in seconds.</param>
/// <param name="WithinSeconds">By when in the step it must have begun, in seconds; null for any time.</param>
public sealed record LandingCriterion(double BelowPerSecondAtBb2, double ForSeconds, double? WithinSeconds = null) : Criterion;
