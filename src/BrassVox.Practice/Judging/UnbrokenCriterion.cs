using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>A glide in one piece: no silence and no jump.</summary>
/// <param name="Role">The tone that glides.</param>
/// <param name="LongestGapSeconds">Longest silence that still counts as one piece, in seconds.</param>
/// <param name="LargestJumpCents">Largest sudden step (within 50 ms) that still counts as gliding, in cents.</param>
public sealed record UnbrokenCriterion(VoiceRole Role, double LongestGapSeconds = 0.25, double LargestJumpCents = 70) : Criterion;
