using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>What became of one note.</summary>
/// <param name="Role">Played or sung.</param>
/// <param name="Label">Its place, as in 3.1; empty when it has none.</param>
/// <param name="Note">The note asked for.</param>
/// <param name="AskedSeconds">When it was asked for, from the beginning of the take.</param>
/// <param name="Cents">Median distance from it in cents; null when it was not told.</param>
/// <param name="LateSeconds">How much later than asked it began, negative when earlier; null when it was not found.</param>
/// <param name="IsFog">True when it could not be told from the other tone.</param>
/// <param name="BeatsPerSecond">In fog: median beat rate; null otherwise and when unknown.</param>
/// <param name="IsAsAsked">True when pitch and time were within their limits; null when nothing could be told.</param>
public sealed record NoteResult(
    VoiceRole Role,
    string Label,
    Pitch Note,
    double AskedSeconds,
    double? Cents,
    double? LateSeconds,
    bool IsFog,
    double? BeatsPerSecond,
    bool? IsAsAsked);
