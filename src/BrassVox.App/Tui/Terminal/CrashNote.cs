using System.Globalization;

namespace BrassVox.App.Tui.Terminal;

/// <summary>Keeps what is needed to mend a crash, where the player can find it.</summary>
internal static class CrashNote
{
    /// <summary>Writes a note of a fault.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="fault">The fault.</param>
    /// <param name="time">The clock that dates it.</param>
    /// <returns>Where the note is, as a sentence; why there is none when it cannot be written.</returns>
    public static string Write(string folder, Exception fault, TimeProvider time)
    {
        string path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"crash-{time.GetUtcNow():yyyyMMdd-HHmmss}.txt"));
        try
        {
            Directory.CreateDirectory(folder);
            File.WriteAllText(path, $"{fault}\n");
            return $"A note of it: {path}";
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return $"No note could be written: {problem.Message}";
        }
    }
}
