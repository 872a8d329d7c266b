namespace BrassVox.Practice.Files;

/// <summary>Folders and files that nobody but their owner may read; on Windows the user's own folders see to that.</summary>
public static class OwnerOnly
{
    private const UnixFileMode ReadAndWrite = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Makes a folder where it is missing; one that is there keeps its rights.</summary>
    /// <param name="path">The folder.</param>
    /// <exception cref="IOException">It cannot be made.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be made.</exception>
    public static void MakeFolder(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, ReadAndWrite | UnixFileMode.UserExecute);
        }
    }

    /// <summary>Opens a file for writing; a file that is made is its owner's alone.</summary>
    /// <param name="path">The file.</param>
    /// <param name="mode">What to do when it is there.</param>
    /// <exception cref="IOException">It cannot be opened.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be opened.</exception>
    public static FileStream Open(string path, FileMode mode)
    {
        var open = new FileStreamOptions { Mode = mode, Access = FileAccess.Write, Share = FileShare.None };
        if (!OperatingSystem.IsWindows())
        {
            open.UnixCreateMode = ReadAndWrite;
        }

        return new FileStream(path, open);
    }
}
