using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>A held tone does not flinch while the other enters, moves or crosses: its largest shift from where it stood before.</summary>
/// <param name="Role">The tone that is to stay.</param>
/// <param name="LimitCents">Largest shift, either side, of a quarter-second median, in cents.</param>
public sealed record SteadyCriterion(VoiceRole Role, GradeLimits LimitCents) : Criterion;
