using BrassVox.Practice.Exercises;

namespace BrassVox.Practice.Sessions;

/// <summary>The strongest resultant of one held stretch of a take.</summary>
/// <param name="Window">The stretch, from the beginning of the take.</param>
/// <param name="PlayedOverSungDb">Level of P over S in dB; null when not told.</param>
/// <param name="Name">The resultant of order 2 or 3 that stands out most, as in S-P; null when none stands out of the sound.</param>
/// <param name="LevelDbfs">Its level in dBFS; null when there is none.</param>
public sealed record StretchResultant(Window Window, double? PlayedOverSungDb, string? Name, double? LevelDbfs);
