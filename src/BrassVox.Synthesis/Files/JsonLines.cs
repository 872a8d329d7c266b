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
