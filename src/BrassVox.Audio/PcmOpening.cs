namespace BrassVox.Audio;

/// <summary>A device, or why there is none.</summary>
/// <param name="Pcm">The opened device, or null.</param>
/// <param name="Message">Null, or one line: what happened, where, what to try.</param>
internal sealed record PcmOpening(IPcm? Pcm, string? Message);
