namespace BrassVox.App.Cli;

/// <summary>What the shell is told. 0 means that the user's work is safe.</summary>
internal static class ExitCode
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>A fault of the program itself.</summary>
    public const int InternalFault = 1;

    /// <summary>The command line cannot be understood, or asks for what there is not or does not fit the player.</summary>
    public const int BadCommandLine = 2;

    /// <summary>An input file cannot be used.</summary>
    public const int UnusableInput = 3;

    /// <summary>The sound device gives trouble.</summary>
    public const int SoundDevice = 4;

    /// <summary>A file cannot be written.</summary>
    public const int CannotStore = 5;

    /// <summary>The terminal cannot show screens.</summary>
    public const int NoTerminal = 6;

    /// <summary>Ended because its terminal was closed (SIGHUP).</summary>
    public const int HungUp = 129;

    /// <summary>Ended by SIGQUIT.</summary>
    public const int Quit = 131;

    /// <summary>Ended by Ctrl-C.</summary>
    public const int Interrupted = 130;

    /// <summary>Ended by SIGTERM.</summary>
    public const int Terminated = 143;
}
