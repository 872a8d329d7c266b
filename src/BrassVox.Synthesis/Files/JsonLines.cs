using System.Globalization;
using System.Text.Json;

namespace BrassVox.Synthesis.Files;

/// <summary>Finds the line on which a place in a JSON text begins.</summary>
public static class JsonLines
{
    /// <summary>Line from 1 of a place such as $.steps[0].id, or of the nearest enclosing place that is there.</summary>
    /// <param name="utf8">The text.</param>
    /// <param name="jsonPath">The place.</param>
    public static long LineOf(ReadOnlySpan<byte> utf8, string jsonPath)
    {
        var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { CommentHandling = JsonCommentHandling.Skip });
        List<(string Prefix, int Index)> open = [];
        string here = "$";
        long line = 1;
        string found = "";
        while (TryRead(ref reader))
        {
            switch (reader.TokenType)
            {
                case JsonTokenType.PropertyName:
                    here = $"{Prefix(open)}.{reader.GetString()}";
                    Note(utf8[..(int)reader.TokenStartIndex]);
                    break;
                case JsonTokenType.StartObject or JsonTokenType.StartArray:
                    NextElement();
                    Note(utf8[..(int)reader.TokenStartIndex]);
                    open.Add((here, reader.TokenType == JsonTokenType.StartArray ? 0 : -1));
                    break;
                case JsonTokenType.EndObject or JsonTokenType.EndArray:
                    open.RemoveAt(open.Count - 1);
                    break;
                default:
                    NextElement();
                    Note(utf8[..(int)reader.TokenStartIndex]);
                    break;
            }
        }

        return line;

        void NextElement()
        {
            if (open.Count > 0 && open[^1].Index >= 0)
            {
                (string prefix, int index) = open[^1];
                here = string.Create(CultureInfo.InvariantCulture, $"{prefix}[{index}]");
                open[^1] = (prefix, index + 1);
            }
        }

        void Note(ReadOnlySpan<byte> before)
        {
            bool encloses = jsonPath.StartsWith(here, StringComparison.Ordinal)
                && (jsonPath.Length == here.Length || jsonPath[here.Length] is '.' or '[');
            if (encloses && here.Length > found.Length)
            {
                found = here;
                line = 1 + before.Count((byte)'\n');
            }
        }
    }

    /// <summary>The place of the first null that stands in a list, where none of our files has one; null when there is none.</summary>
    /// <param name="utf8">The text, whole JSON.</param>
    public static string? NullInList(ReadOnlySpan<byte> utf8)
    {
        if (utf8.IndexOf("null"u8) < 0)
        {
            return null;
        }

        var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { CommentHandling = JsonCommentHandling.Skip });
        List<(string Name, int Index)> open = [];
        string name = "";
        while (TryRead(ref reader))
        {
            bool isInList = open.Count > 0 && open[^1].Index >= 0;
            switch (reader.TokenType)
            {
                case JsonTokenType.PropertyName:
                    name = $".{reader.GetString()}";
                    continue;
                case JsonTokenType.EndObject or JsonTokenType.EndArray:
                    open.RemoveAt(open.Count - 1);
                    continue;
                case JsonTokenType.Null when isInList:
                    return string.Create(CultureInfo.InvariantCulture, $"${string.Concat(open.Select(level => level.Name))}[{open[^1].Index}]");
                case JsonTokenType.StartObject or JsonTokenType.StartArray:
                    string own = isInList ? string.Create(CultureInfo.InvariantCulture, $"[{open[^1].Index}]") : open.Count == 0 ? "" : name;
                    Count();
                    open.Add((own, reader.TokenType == JsonTokenType.StartArray ? 0 : -1));
                    continue;
                default:
                    Count();
                    continue;
            }
        }

        return null;

        void Count()
        {
            if (open.Count > 0 && open[^1].Index >= 0)
            {
                open[^1] = (open[^1].Name, open[^1].Index + 1);
            }
        }
    }

    // Broken text further down does not matter for what was found before it.
    private static bool TryRead(ref Utf8JsonReader reader)
    {
        try
        {
            return reader.Read();
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static string Prefix(List<(string Prefix, int Index)> open) => open.Count == 0 ? "$" : open[^1].Prefix;
}
