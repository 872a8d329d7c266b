namespace BrassVox.Practice.Files;

/// <summary>
/// Writes files that are whole or not there: beside their place as NAME.part, down to the disk, then under their name in one step.
/// An older file of that name stays until the new one is whole.
/// </summary>
public static class WholeFile
{
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

    private static void Write(string path, Func<string, FileStream> create, Action<Stream> write)
    {
        string part = path + ".part";
        using (FileStream file = create(part))
        {
            try
            {
                write(file);
                file.Flush(flushToDisk: true);
            }
            catch
            {
                file.Dispose();
                File.Delete(part);
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
