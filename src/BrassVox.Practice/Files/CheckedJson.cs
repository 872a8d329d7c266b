using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using System.Text.Unicode;
using BrassVox.Synthesis.Files;

namespace BrassVox.Practice.Files;

/// <summary>Reads JSON files of data that people write. Nothing is half-loaded: the value is whole or there is a problem with file, line and place.</summary>
public static class CheckedJson
{
    /// <summary>Reads a file. Never throws for a missing, unreadable or broken file.</summary>
    /// <param name="path">Path of the file.</param>
    /// <param name="largestBytes">Longest file read, in bytes.</param>
    /// <param name="type">How the value is read.</param>
    /// <param name="firstFault">Finds what a well-formed file can still get wrong: its place and the message, or null.</param>
    /// <typeparam name="T">What the file holds.</typeparam>
    public static FileLoad<T> Read<T>(
        string path, long largestBytes, JsonTypeInfo<T> type, Func<T, (string JsonPath, string Message)?> firstFault)
        where T : class
    {
        try
        {
            using FileStream stream = File.OpenRead(path);
            if (stream.Length > largestBytes)
            {
                return Failed<T>(path, "$", 0, $"the file is larger than {largestBytes} bytes; none of its kind is.");
            }

            byte[] bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            return Parse(bytes, path, type, firstFault);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Failed<T>(path, "$", 0, e.Message);
        }
    }

    /// <summary>Reads UTF-8 text.</summary>
    /// <param name="utf8">The text; a byte order mark is passed over.</param>
    /// <param name="name">Name used in a problem.</param>
    /// <param name="type">How the value is read.</param>
    /// <param name="firstFault">Finds what well-formed text can still get wrong: its place and the message, or null.</param>
    /// <typeparam name="T">What the text holds.</typeparam>
    public static FileLoad<T> Parse<T>(
        ReadOnlySpan<byte> utf8, string name, JsonTypeInfo<T> type, Func<T, (string JsonPath, string Message)?> firstFault)
        where T : class
    {
        utf8 = utf8.StartsWith("\uFEFF"u8) ? utf8[3..] : utf8;
        if (!Utf8.IsValid(utf8))
        {
            return Failed<T>(name, "$", 1, "the file is not UTF-8 text.");
        }

        try
        {
            T? value = JsonSerializer.Deserialize(utf8, type);
            if (value is null)
            {
                return Failed<T>(name, "$", 1, "the file holds null and nothing else.");
            }

            if (JsonLines.NullInList(utf8) is { } empty)
            {
                return Failed<T>(name, empty, JsonLines.LineOf(utf8, empty), JsonWords.NoNull);
            }

            return firstFault(value) is { } fault
                ? Failed<T>(name, fault.JsonPath, JsonLines.LineOf(utf8, fault.JsonPath), fault.Message)
                : new FileLoad<T>(value, null);
        }
        catch (JsonException e)
        {
            return Failed<T>(name, e.Path ?? "$", (e.LineNumber ?? 0) + 1, JsonWords.Of(e));
        }
        catch (NotSupportedException e)
        {
            // The serializer reports a missing "kind" this way, its place only in the message.
            string path = JsonWords.PlaceIn(e.Message);
            return Failed<T>(name, path, JsonLines.LineOf(utf8, path), "a \"kind\" is missing: it says which criterion or answer this is.");
        }
    }

    private static FileLoad<T> Failed<T>(string file, string path, long line, string message)
        where T : class => new(null, new FileProblem(file, path, line, message));
}
