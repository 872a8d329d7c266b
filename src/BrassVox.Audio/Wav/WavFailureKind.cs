namespace BrassVox.Audio.Wav;

/// <summary>Why a WAV file could not be read.</summary>
public enum WavFailureKind
{
    /// <summary>There is no such file.</summary>
    NotFound,

    /// <summary>The file is there, but may not be read, is a folder, or its disk fails.</summary>
    NotReadable,

    /// <summary>It is something other than a WAV file.</summary>
    NotWav,

    /// <summary>It ends before its sound begins.</summary>
    CutOff,

    /// <summary>Its header contradicts itself.</summary>
    Damaged,

    /// <summary>It is a WAV file of a kind that is not read here.</summary>
    Unsupported,
}
