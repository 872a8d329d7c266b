namespace BrassVox.Audio.Wav;

/// <summary>Why a WAV file could not be read.</summary>
/// <param name="Kind">Kind of failure, for deciding what to do.</param>
/// <param name="Message">One line for people: what, in which file, what to try.</param>
public sealed record WavFailure(WavFailureKind Kind, string Message) : WavReading;
