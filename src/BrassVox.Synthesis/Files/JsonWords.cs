using System.Text.Json;

namespace BrassVox.Synthesis.Files;

/// <summary>What the JSON library says of a file that people wrote, in our words.</summary>
public static class JsonWords
{
    /// <summary>What is said of a null that may not be there.</summary>
    public const string NoNull = "null is not allowed here.";

    /// <summary>What is wrong, and what to look at. The place is told apart; the library's own suffix would say it twice.</summary>
    /// <param name="fault">The library's fault.</param>
    public static string Of(JsonException fault)
    {
        string message = fault.Message;
        if (Between(message, "The JSON property '", "' could not be mapped") is { } unknown)
        {
            return $"\"{unknown}\" is not known here: a slip of the pen?";
        }

        if (Between(message, "missing required properties including: ", ".") is { } missing)
        {
            return $"missing here: {missing.Replace('\'', '"')}.";
        }

        if (message.Contains("could not be converted to", StringComparison.Ordinal))
        {
            return "this value does not fit here: check its spelling, and whether a number or words in quotes are wanted.";
        }

        if (message.Contains("allow null", StringComparison.Ordinal))
        {
            return NoNull;
        }

        // The reader's own fault comes wrapped in the serializer's; what our converters say of a value does not.
        if (fault.InnerException is JsonException)
        {
            return "this is no JSON from here on: look for a comma, a bracket or a quote that is missing or too many.";
        }

        int suffix = message.IndexOf(" Path: ", StringComparison.Ordinal);
        return suffix < 0 ? message : message[..suffix];
    }

    /// <summary>The place that the library names within a message only; the whole text where it names none.</summary>
    /// <param name="message">The library's message.</param>
    public static string PlaceIn(string message) => Between(message, " Path: ", " |") ?? "$";

    private static string? Between(string text, string before, string after)
    {
        int start = text.IndexOf(before, StringComparison.Ordinal);
        int end = start < 0 ? -1 : text.IndexOf(after, start, StringComparison.Ordinal);
        return end < 0 ? null : text[(start + before.Length)..end];
    }
}
