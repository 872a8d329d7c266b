namespace BrassVox.Audio;

/// <summary>What came of asking for a line: always a line that can be started, and a message when it is not the one wished for.</summary>
/// <param name="Line">The line; the silent line when no device could be had.</param>
/// <param name="IsDevice">True when real sound will pass.</param>
/// <param name="Message">Null, or one line that says what happened, where, and what to try.</param>
public sealed record LineOpening(IAudioLine Line, bool IsDevice, string? Message);
