using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace BrassVox.Synthesis.Files;

/// <summary>Reads presets. One that cannot be used is named with file, line, place and what to try.</summary>
internal static class PresetJson
{
    private const string Try = "Mend it there, or put back the file that came with the program.";

    /// <summary>Reads one file.</summary>
    /// <param name="file">The file.</param>
    /// <param name="type">How it is read.</param>
    /// <param name="check">What a well-formed preset can still get wrong, as "place: message"; null when nothing.</param>
    /// <exception cref="InvalidDataException">It is no such preset.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read.</exception>
    public static T Read<T>(string file, JsonTypeInfo<T> type, Func<T, string?> check)
    {
        byte[] bytes = File.ReadAllBytes(file);
        ReadOnlySpan<byte> utf8 = bytes.AsSpan().StartsWith("\uFEFF"u8) ? bytes.AsSpan(3) : bytes;
        T? preset;
        try
        {
            preset = JsonSerializer.Deserialize(utf8, type);
        }
        catch (JsonException error)
        {
            throw Fault(file, (error.LineNumber ?? 0) + 1, error.Path ?? "$", JsonWords.Of(error), error);
        }

        if (preset is null)
        {
            throw Fault(file, 1, "$", "the file holds null and nothing else.");
        }

        if (JsonLines.NullInList(utf8) is { } empty)
        {
            throw Fault(file, JsonLines.LineOf(utf8, empty), empty, JsonWords.NoNull);
        }

        if (check(preset) is { } complaint)
        {
            int colon = complaint.IndexOf(": ", StringComparison.Ordinal);
            (string place, string message) = complaint.StartsWith('$') && colon > 0 ? (complaint[..colon], complaint[(colon + 2)..]) : ("$", complaint);
            throw Fault(file, JsonLines.LineOf(utf8, place), place, $"{message}.");
        }

        return preset;
    }

    private static InvalidDataException Fault(string file, long line, string place, string message, Exception? cause = null) =>
        new(PlainLine.Of(string.Create(CultureInfo.InvariantCulture, $"{file}, line {line}, at {place}: {message} {Try}")), cause);
}
