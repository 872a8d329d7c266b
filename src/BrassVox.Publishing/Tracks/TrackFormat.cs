namespace BrassVox.Publishing.Tracks;

/// <summary>How tracks are written.</summary>
public enum TrackFormat
{
    /// <summary>WAV of 16 bits.</summary>
    Wav16,

    /// <summary>WAV of 24 bits.</summary>
    Wav24,

    /// <summary>WAV of 32-bit floats: the stems add up to the mix to the last bit.</summary>
    WavFloat,

    /// <summary>Opus in Ogg, 96 kbit/s, small.</summary>
    Opus,
}
