namespace BrassVox.Audio.Wav;

/// <summary>How samples are written.</summary>
public enum WavEncoding
{
    /// <summary>Whole numbers of 16 bits: read by everything.</summary>
    Pcm16,

    /// <summary>Whole numbers of 24 bits.</summary>
    Pcm24,

    /// <summary>32-bit floating point: nothing is clipped.</summary>
    Floating32,
}
