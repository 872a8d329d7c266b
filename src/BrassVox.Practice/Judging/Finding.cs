using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>What one criterion found in one step.</summary>
/// <param name="StepId">The step.</param>
/// <param name="Criterion">Name of the criterion's kind: offset, spread, drift, steady, unbroken, landing, beatRate, arrival, together, return, interval, balance, notes; or heard, rest, steps, octave, second, clock, bleed, input, length.</param>
/// <param name="Role">The tone; null when it is about the pair.</param>
/// <param name="Verdict">Whether it was as asked, at the grade aimed at.</param>
/// <param name="Fault">In what way it was not.</param>
/// <param name="Value">What was measured, in <paramref name="Unit"/>; null when nothing could be.</param>
/// <param name="Limit">What was allowed, in the same unit; null where there is no figure.</param>
/// <param name="Unit">c for cents, /s for beats per second, s for seconds, dB for levels; empty for a plain number.</param>
/// <param name="Reached">The narrowest grade met; null when none was, or when nothing could be told.</param>
/// <param name="Text">The finding in words for the player.</param>
public sealed record Finding(
    string StepId,
    string Criterion,
    VoiceRole? Role,
    Verdict Verdict,
    Fault Fault,
    double? Value,
    double? Limit,
    string Unit,
    Grade? Reached,
    string Text);
