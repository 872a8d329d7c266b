using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>The tone's median distance from its path.</summary>
/// <param name="Role">The tone.</param>
/// <param name="LimitCents">Largest offset, either side, in cents.</param>
/// <param name="AnyOctave">True when any octave of the path will do.</param>
public sealed record OffsetCriterion(VoiceRole Role, GradeLimits LimitCents, bool AnyOctave = false) : Criterion;
