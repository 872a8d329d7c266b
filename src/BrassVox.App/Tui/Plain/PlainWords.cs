using System.Text.RegularExpressions;

namespace BrassVox.App.Tui.Plain;

/// <summary>Writes units and signs as words, for a screen reader.</summary>
internal static partial class PlainWords
{
    /// <summary>A line with units, signs and marks in words.</summary>
    /// <param name="line">The line as a screen would show it.</param>
    public static string Of(string line)
    {
        string text = Minus().Replace(line, "minus $1");
        text = Plus().Replace(text, "plus $1");
        text = Decibels().Replace(text, "$1 decibels");
        text = PerSecond().Replace(text, "$1 per second");
        text = Hertz().Replace(text, "$1 hertz");
        text = CentsUnit().Replace(text, "$1 cents");
        text = Flat().Replace(text, "$1-flat $2");
        text = Sharp().Replace(text, "$1-sharp $2");
        text = Natural().Replace(text, "$1 $2");
        text = text.Replace("░ ", "", StringComparison.Ordinal).Replace("^T", "Control T", StringComparison.Ordinal);
        return Gaps().Replace(text, " ").Trim();
    }

    [GeneratedRegex(@"(?<=^|[\s(])-(\d)")]
    private static partial Regex Minus();

    [GeneratedRegex(@"(?<=^|[\s(])\+(\d)")]
    private static partial Regex Plus();

    [GeneratedRegex(@"(\d) dB\b")]
    private static partial Regex Decibels();

    [GeneratedRegex(@"(\d) /s\b")]
    private static partial Regex PerSecond();

    [GeneratedRegex(@"(\d) Hz\b")]
    private static partial Regex Hertz();

    [GeneratedRegex(@"(\d) c\b")]
    private static partial Regex CentsUnit();

    [GeneratedRegex(@"\b([A-G])b(-?\d)\b")]
    private static partial Regex Flat();

    [GeneratedRegex(@"\b([A-G])#(-?\d)\b")]
    private static partial Regex Sharp();

    [GeneratedRegex(@"\b([A-G])(\d)\b")]
    private static partial Regex Natural();

    [GeneratedRegex(@"\s{2,}")]
    private static partial Regex Gaps();
}
