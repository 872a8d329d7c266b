namespace BrassVox.Synthesis.Files;

/// <summary>Words from a file or a command line as they may be shown: on one line, and without signs that move a terminal's cursor.</summary>
public static class PlainLine
{
    /// <summary>The same words; line ends become spaces, other control characters question marks.</summary>
    /// <param name="text">The words.</param>
    public static string Of(string text) => text.AsSpan().IndexOfAnyInRange('\0', '\x1F') < 0 && text.AsSpan().IndexOfAnyInRange('\x7F', '\x9F') < 0
        ? text
        : string.Concat(text.ReplaceLineEndings(" ").Select(Of));

    /// <summary>One sign as it may be shown.</summary>
    /// <param name="sign">The sign.</param>
    public static char Of(char sign) => sign is '\t' ? ' ' : char.IsControl(sign) ? '?' : sign;
}
