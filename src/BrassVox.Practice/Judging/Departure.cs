using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>A stretch of a take in which a tone lay outside the limits about its path.</summary>
/// <param name="Role">The tone.</param>
/// <param name="FromSeconds">When it left them, from the beginning of the take.</param>
/// <param name="ToSeconds">When it came back, or was no longer asked for.</param>
/// <param name="FurthestCents">Its largest distance from the path there, in cents; positive is high.</param>
public sealed record Departure(VoiceRole Role, double FromSeconds, double ToSeconds, double FurthestCents);
