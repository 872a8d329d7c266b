namespace BrassVox.App.Cli;

/// <summary>One clear line on standard error, and the exit code that goes with it.</summary>
internal static class Failure
{
    /// <summary>Says what, where and what to try.</summary>
    /// <param name="exitCode">One of <see cref="ExitCode"/>.</param>
    /// <param name="message">One sentence or two, without the program's name.</param>
    /// <returns><paramref name="exitCode"/>, for the caller to return.</returns>
    public static int Say(int exitCode, string message)
    {
        Console.Error.WriteLine($"brassvox: {message.ReplaceLineEndings(" ")}");
        return exitCode;
    }
}
