namespace BrassVox.Practice.Log;

/// <summary>Why the log could not be used. Different kinds have different remedies.</summary>
public enum LogFailureKind
{
    /// <summary>The file belongs to another program; it is left untouched.</summary>
    Foreign,

    /// <summary>A newer version of the program wrote it; it is left untouched.</summary>
    Newer,

    /// <summary>It may be read but not written.</summary>
    ReadOnly,

    /// <summary>The disk is full, or a quota.</summary>
    NoSpace,

    /// <summary>Another instance held it for longer than we wait.</summary>
    Busy,

    /// <summary>The disk could not read or write just now: full, or in trouble. Nothing says that the file is damaged.</summary>
    DiskTrouble,

    /// <summary>The file is damaged.</summary>
    Damaged,

    /// <summary>The file or its folder cannot be opened or made.</summary>
    CannotOpen,
}
