namespace BrassVox.Practice.Judging;

/// <summary>The distance between the two tones, stretch by stretch, against the one asked for; wide leaps are allowed more.</summary>
/// <param name="LimitCents">Largest error of any stretch, either side, in cents.</param>
/// <param name="WideLimitCents">The same where P has leapt more than a major third.</param>
public sealed record IntervalCriterion(GradeLimits LimitCents, GradeLimits WideLimitCents) : Criterion;
