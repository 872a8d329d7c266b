namespace BrassVox.Practice.Judging;

/// <summary>The pair beats at a chosen rate.</summary>
/// <param name="PerSecond">Rate asked for, in beats per second.</param>
/// <param name="WithinPerSecond">Largest distance of the median from it, in beats per second.</param>
public sealed record BeatRateCriterion(double PerSecond, double WithinPerSecond) : Criterion;
