namespace BrassVox.Audio.Wav;

/// <summary>What came of reading a WAV file: a <see cref="WavSound"/> or a <see cref="WavFailure"/>.</summary>
public abstract record WavReading;
