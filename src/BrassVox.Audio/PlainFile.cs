using Microsoft.Win32.SafeHandles;

namespace BrassVox.Audio;

/// <summary>
/// Tells a file from a device or pipe. What is finished under another name and then takes the place of what has the name would
/// put an end to those: as the system's owner even to /dev/null.
/// </summary>
public static class PlainFile
{
    private const int InvalidOnUnix = 22;

    /// <summary>True when what has a name is a plain file: only one takes a length.</summary>
    /// <param name="path">Name of something that is there.</param>
    /// <exception cref="IOException">It cannot be opened.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static bool Is(string path)
    {
        try
        {
            using SafeFileHandle there = File.OpenHandle(path, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite | FileShare.Delete);
            RandomAccess.SetLength(there, RandomAccess.GetLength(there));
            return true;
        }
        catch (Exception fault) when (fault is NotSupportedException or ArgumentException or IOException { HResult: InvalidOnUnix })
        {
            return false;
        }
    }
}
