namespace BrassVox.Practice.Log;

/// <summary>What is wrong with the log: what, where, what to try.</summary>
/// <param name="Kind">The kind.</param>
/// <param name="Path">The file.</param>
/// <param name="Message">One or two sentences for people.</param>
public sealed record LogFailure(LogFailureKind Kind, string Path, string Message)
{
    /// <summary>A failure with the words of its kind.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="path">The file.</param>
    /// <param name="detail">What the database said; added where it helps.</param>
    internal static LogFailure Of(LogFailureKind kind, string path, string detail = "") => new(kind, path, kind switch
    {
        LogFailureKind.Foreign => $"{path} is not a log of BrassVox and is left untouched. Move it away, or name another data folder.",
        LogFailureKind.Newer => $"{path} was written by a newer BrassVox and is left untouched. Use that version, or name another data folder.",
        LogFailureKind.ReadOnly => $"{path} can be read but not written. Make the file and its folder writable, or name another data folder.",
        LogFailureKind.NoSpace => $"{path} cannot grow: the disk or its quota is full. Free some space and try again; what was kept before is safe.",
        LogFailureKind.Busy => $"{path} is in use by another instance. Close that one, or try again in a moment.",
        LogFailureKind.DiskTrouble => $"{path} could not be read or written just now ({detail}). Leave it where it is; see that the disk has room and is well, and try again.",
        LogFailureKind.Damaged => $"{path} is damaged ({detail}). Move it away: the takes beside it are read again into a new one.",
        _ => $"{path} cannot be opened ({detail}). Check that its folder exists and may be written, or name another data folder.",
    });
}
