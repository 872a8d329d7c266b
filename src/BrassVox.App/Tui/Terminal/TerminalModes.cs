namespace BrassVox.App.Tui.Terminal;

/// <summary>
/// What a terminal has to be told when the library no longer tells it, or never does. Sequences of DEC's VT terminals and xterm, from
/// their control-sequence lists.
/// </summary>
internal static class TerminalModes
{
    // .NET asks for keypad codes when it first reads a key, and nobody takes that back: arrows typed into the next program would be ESC O A.
    private const string UsualKeys = "\e[?1l\e>";
    private const string NoMouse = "\e[?1000l\e[?1003l\e[?1006l\e[?1015l";
    private const string UsualPaste = "\e[?2004l";
    private const string PlainText = "\e[0m";
    private const string CursorShown = "\e[?25h";
    private const string UsualScreen = "\e[?1049l";

    /// <summary>After an orderly end of the library: gives the keys their usual codes.</summary>
    public static void Restore() => Tell(UsualKeys);

    /// <summary>In place of an orderly end: back to the screen of the shell, with its cursor, without mouse.</summary>
    public static void Leave() => Tell(NoMouse + UsualPaste + PlainText + UsualScreen + CursorShown + UsualKeys);

    private static void Tell(string sequence)
    {
        if (OperatingSystem.IsWindows() || TerminalKind.Obstacle(Environment.GetEnvironmentVariable, isWindows: false) is not null)
        {
            return;
        }

        try
        {
            Console.Out.Write(sequence);
            Console.Out.Flush();
        }
        catch (IOException)
        {
            // The terminal is gone; there is nothing left to restore.
        }
    }
}
