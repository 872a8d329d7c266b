using System.Diagnostics;

namespace BrassVox.Practice.Files;

/// <summary>
/// A turn at the small files of a folder that windows and commands read, change and write back, so that none writes over what another has
/// just written. Held as an open, empty file that stays; the system gives the turn back when its holder dies.
/// </summary>
public sealed class FolderTurn : IDisposable
{
    /// <summary>Name of the empty file.</summary>
    public const string FileName = ".turn";

    private const int LookAgainMs = 10;
    private static readonly TimeSpan LongestWait = TimeSpan.FromSeconds(2);
    private readonly FileStream? _held;

    private FolderTurn(FileStream? held) => _held = held;

    /// <summary>False when another held the turn for two seconds, or the folder keeps no file: what is then written may be lost to another.</summary>
    public bool IsHeld => _held is not null;

    /// <summary>Waits for the turn, two seconds at most; never throws, since what follows tells what is wrong with the folder.</summary>
    /// <param name="folder">The folder; where it is missing, nothing is there to be lost.</param>
    public static FolderTurn Take(string folder)
    {
        string path = Path.Combine(folder, FileName);
        var waited = Stopwatch.StartNew();
        while (Directory.Exists(folder))
        {
            try
            {
                return new FolderTurn(OwnerOnly.Open(path, FileMode.OpenOrCreate));
            }
            catch (IOException problem) when (WholeFile.IsHeldByAnother(problem) && waited.Elapsed < LongestWait)
            {
                Thread.Sleep(LookAgainMs);
            }
            catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
            {
                break;
            }
        }

        return new FolderTurn(null);
    }

    /// <summary>Gives the turn back.</summary>
    public void Dispose() => _held?.Dispose();
}
