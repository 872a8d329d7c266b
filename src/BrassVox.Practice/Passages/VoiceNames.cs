namespace BrassVox.Practice.Passages;

/// <summary>Which voices of a score are P and S, where the reader is not to find them itself.</summary>
/// <param name="Played">Part of the name of the played voice's part, or "part/voice" as the reader lists them; null to find it.</param>
/// <param name="Sung">The same for the sung voice.</param>
public sealed record VoiceNames(string? Played, string? Sung);
