using BrassVox.Synthesis.Files;

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
        try
        {
            Console.Error.WriteLine($"brassvox: {PlainLine.Of(message)}");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // Standard error is closed: the exit code alone has to say it.
        }

        return exitCode;
    }
}
