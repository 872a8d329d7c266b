using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Each held pitch of the path is reached in time.</summary>
/// <param name="Role">The tone.</param>
/// <param name="WithinSeconds">Latest arrival after the pitch is asked for, in seconds.</param>
/// <param name="LimitCents">What counts as there, either side, in cents.</param>
public sealed record ArrivalCriterion(VoiceRole Role, double WithinSeconds, GradeLimits LimitCents) : Criterion;
