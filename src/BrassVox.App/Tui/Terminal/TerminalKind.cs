namespace BrassVox.App.Tui.Terminal;

/// <summary>What the terminal can show, from its environment.</summary>
/// <param name="IsAscii">True when only 0x20 to 0x7E is safe.</param>
/// <param name="NoColour">True when colour is not wanted.</param>
internal readonly record struct TerminalKind(bool IsAscii, bool NoColour)
{
    private static readonly string[] LineTerminals = ["", "dumb", "unknown", "network", "dialup", "patch"];

    private static readonly string[] LocaleVariables = ["LC_ALL", "LC_CTYPE", "LANG"];

    /// <summary>Why screens cannot stand on this terminal; null when they can.</summary>
    /// <param name="variable">Gives a variable's value, or null.</param>
    /// <param name="isWindows">True on Windows, where TERM says nothing.</param>
    /// <remarks>Names of terminals without cursor addressing: terminfo's dumb and unknown, and the old names of lines (from memory).</remarks>
    public static string? Obstacle(Func<string, string?> variable, bool isWindows)
    {
        string term = variable("TERM") ?? "";
        return isWindows || !LineTerminals.Contains(term, StringComparer.Ordinal)
            ? null
            : $"this terminal ({(term.Length == 0 ? "TERM is not set" : $"TERM is {term}")}) cannot place its cursor. Set TERM, as in TERM=xterm-256color, or use --plain.";
    }

    /// <summary>Reads the environment.</summary>
    /// <param name="variable">Gives a variable's value, or null.</param>
    /// <param name="isWindows">True on Windows, whose console is Unicode whatever the variables say.</param>
    /// <remarks>NO_COLOR counts when it is set and not empty, whatever its value (the convention of that name). The locale is LC_ALL, else LC_CTYPE, else LANG (POSIX).</remarks>
    public static TerminalKind Of(Func<string, string?> variable, bool isWindows)
    {
        string term = variable("TERM") ?? "";
        string locale = LocaleVariables.Select(variable).FirstOrDefault(value => !string.IsNullOrEmpty(value)) ?? "";
        bool utf8 = locale.Contains("UTF-8", StringComparison.OrdinalIgnoreCase) || locale.Contains("UTF8", StringComparison.OrdinalIgnoreCase);
        bool ascii = !isWindows && (term is "linux" or "vt100" or "vt220" || !utf8);
        return new TerminalKind(ascii, !string.IsNullOrEmpty(variable("NO_COLOR")));
    }
}
