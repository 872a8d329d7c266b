using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>How far the tone's fitted line rises or falls against its path from beginning to end.</summary>
/// <param name="Role">The tone.</param>
/// <param name="LimitCents">Largest rise or fall in cents.</param>
public sealed record DriftCriterion(VoiceRole Role, GradeLimits LimitCents) : Criterion;
