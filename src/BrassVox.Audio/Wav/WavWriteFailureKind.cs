namespace BrassVox.Audio.Wav;

/// <summary>Why a WAV file could not be written.</summary>
public enum WavWriteFailureKind
{
    /// <summary>The folder is not there.</summary>
    NoFolder,

    /// <summary>The folder or the file may not be written by this account.</summary>
    NotAllowed,

    /// <summary>A file of that name is there and is not to be overwritten.</summary>
    AlreadyThere,

    /// <summary>The disk is full.</summary>
    DiskFull,

    /// <summary>The file would pass the 4 GB that a plain WAV file can hold.</summary>
    TooLarge,

    /// <summary>The disk failed in another way.</summary>
    DiskFault,
}
