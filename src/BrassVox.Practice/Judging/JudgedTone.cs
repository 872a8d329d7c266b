using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>What one tone did against its path over a take. First and last 150 ms of every stretch are left out.</summary>
/// <param name="Role">The tone.</param>
/// <param name="OffsetCents">Median distance from the path in cents; null when not told.</param>
/// <param name="SpreadCents">Standard deviation about its own line, vibrato taken out, in cents; null when not told.</param>
/// <param name="DriftCents">Rise (or, negative, fall) of that line from beginning to end, in cents; null when not told.</param>
/// <param name="VibratoPerSecond">Vibrato rate in Hz; null when there is none.</param>
/// <param name="VibratoCents">Vibrato, cents to each side; null when there is none.</param>
/// <param name="OnsetSeconds">When it began, from the beginning of the take; null when it was not found.</param>
/// <param name="HeardSeconds">How long it was heard while asked for, in seconds; where the two could not be told apart it counts as heard.</param>
/// <param name="AskedSeconds">How long it was asked for, in seconds.</param>
/// <param name="ToldSeconds">How long its own pitch could be told while asked for, in seconds; null in takes judged before that was kept.</param>
public sealed record JudgedTone(
    VoiceRole Role,
    double? OffsetCents,
    double? SpreadCents,
    double? DriftCents,
    double? VibratoPerSecond,
    double? VibratoCents,
    double? OnsetSeconds,
    double HeardSeconds,
    double AskedSeconds,
    double? ToldSeconds = null);
