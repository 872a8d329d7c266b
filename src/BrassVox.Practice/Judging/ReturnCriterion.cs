using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>A tone that left comes back to where it was: distance between its first and its later stretches.</summary>
/// <param name="Role">The tone.</param>
/// <param name="LimitCents">Largest distance, either side, in cents.</param>
public sealed record ReturnCriterion(VoiceRole Role, GradeLimits LimitCents) : Criterion;
