using BrassVox.Audio;

namespace BrassVox.Practice.Files;

/// <summary>
/// Writes files that are whole or not there: beside their place as NAME.part, down to the disk, then under their name in one step.
/// An older file of that name stays until the new one is whole.
/// </summary>
public static class WholeFile
{
    // ENOSPC; EWOULDBLOCK of Linux and of macOS; ERROR_DISK_FULL; ERROR_SHARING_VIOLATION.
    private const int NoRoom = 28;
    private const int Held = 11;
    private const int HeldOnMac = 35;
    private const int NoRoomOnWindows = unchecked((int)0x80070070);
    private const int HeldOnWindows = unchecked((int)0x80070020);

    /// <summary>Writes a file that only its owner may read.</summary>
    /// <param name="path">The file; its folder is there.</param>
    /// <param name="write">Writes all of it; what it throws is passed on, and nothing is left behind.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static void WriteForOwner(string path, Action<Stream> write) => Write(path, part => OwnerOnly.Open(part, FileMode.Create), write);

    /// <summary>Writes a file with the usual rights.</summary>
    /// <param name="path">The file; its folder is there.</param>
    /// <param name="write">Writes all of it; what it throws is passed on, and nothing is left behind.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be written.</exception>
    public static void Write(string path, Action<Stream> write) => Write(path, File.Create, write);

    /// <summary>True when a file could not be opened because another program has it open.</summary>
    /// <param name="error">What opening it threw.</param>
    internal static bool IsHeldByAnother(IOException error) => error.HResult is Held or HeldOnMac or HeldOnWindows;

    // The part is the program's own business: what is said names the file that was asked for.
    private static FileStream Begin(string path, string part, Func<string, FileStream> create)
    {
        try
        {
            return create(part);
        }
        catch (Exception error) when (error is DirectoryNotFoundException or FileNotFoundException)
        {
            throw new DirectoryNotFoundException($"the folder of {path} is not there", error);
        }
        catch (IOException error) when (IsHeldByAnother(error))
        {
            throw new IOException($"another command is writing {path} just now", error);
        }
    }

    // A file that may not be opened is replaced all the same where its folder allows it.
    private static bool IsDevice(string path)
    {
        try
        {
            return File.Exists(path) && !PlainFile.Is(path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static void Write(string path, Func<string, FileStream> create, Action<Stream> write)
    {
        if (IsDevice(path))
        {
            throw new IOException($"{path} is no plain file but a device or pipe; name a file");
        }

        string part = path + ".part";
        using (FileStream file = Begin(path, part, create))
        {
            try
            {
                write(file);
                file.Flush(flushToDisk: true);
            }
            catch (Exception error)
            {
                file.Dispose();
                File.Delete(part);
                if (error is IOException { HResult: NoRoom or NoRoomOnWindows })
                {
                    throw new IOException($"the disk is full; {path} is not written", error);
                }

                throw;
            }
        }

        try
        {
            File.Move(part, path, overwrite: true);
        }
        catch
        {
            File.Delete(part);
            throw;
        }
    }
}
