using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>How far the tone wanders about its own line: standard deviation without drift and vibrato.</summary>
/// <param name="Role">The tone.</param>
/// <param name="LimitCents">Largest standard deviation in cents.</param>
public sealed record SpreadCriterion(VoiceRole Role, GradeLimits LimitCents) : Criterion;
