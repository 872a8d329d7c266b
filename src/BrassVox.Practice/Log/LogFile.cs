using System.Text;
using BrassVox.Practice.Files;

namespace BrassVox.Practice.Log;

/// <summary>A log as a file that can be carried: JSON or CSV, by its ending. Written for its owner only.</summary>
public static class LogFile
{
    /// <summary>Writes a log.</summary>
    /// <param name="contents">The log.</param>
    /// <param name="path">A path that ends in .json or .csv; replaced in one step when it exists.</param>
    /// <exception cref="InvalidDataException">The ending is another.</exception>
    /// <exception cref="IOException">It cannot be written.</exception>
    public static void Write(LogContents contents, string path)
    {
        string text = IsCsv(path) ? LogCsv.Text(contents) : LogContentsJson.Text(contents);
        WholeFile.WriteForOwner(path, file => file.Write(Encoding.UTF8.GetBytes(text)));
    }

    /// <summary>Reads a log.</summary>
    /// <param name="path">A path that ends in .json or .csv.</param>
    /// <exception cref="InvalidDataException">It is no such log; the message says where.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static LogContents Read(string path)
    {
        bool csv = IsCsv(path);
        string text = File.ReadAllText(path);
        return csv ? LogCsv.Read(text, path) : LogContentsJson.Read(text, path);
    }

    /// <summary>True for a name that a log can be written to: it ends in .json or .csv.</summary>
    /// <param name="path">The name.</param>
    public static bool IsName(string path) => Path.GetExtension(path).ToLowerInvariant() is ".json" or ".csv";

    private static bool IsCsv(string path) => Path.GetExtension(path).ToLowerInvariant() switch
    {
        ".csv" => true,
        ".json" => false,
        _ => throw new InvalidDataException($"{path}: a log is written and read as .json or .csv."),
    };
}
