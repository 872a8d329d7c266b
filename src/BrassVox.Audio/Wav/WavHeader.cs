namespace BrassVox.Audio.Wav;

/// <summary>What stands before a WAV file's samples.</summary>
/// <param name="Layout">How the samples are held.</param>
/// <param name="DataBytes">Bytes of sound that the file states, or null when it does not say.</param>
/// <param name="Notes">What was odd.</param>
internal sealed record WavHeader(WavLayout Layout, long? DataBytes, List<string> Notes);
