using BrassVox.Audio.Wav;

namespace BrassVox.Publishing;

/// <summary>What came of writing tracks.</summary>
/// <param name="Files">The files, the mix first; empty when one could not be begun.</param>
/// <param name="Failure">What went wrong first, or null.</param>
public sealed record TracksWritten(IReadOnlyList<WavWritten> Files, WavWriteFailure? Failure);
