namespace BrassVox.Audio.Wav;

/// <summary>Why a WAV file could not be written.</summary>
/// <param name="Kind">Kind of failure, for deciding what to do.</param>
/// <param name="Message">One line for people: what, which file, what to try.</param>
public sealed record WavWriteFailure(WavWriteFailureKind Kind, string Message);
