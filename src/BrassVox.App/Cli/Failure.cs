using System.Text;
using BrassVox.Synthesis.Files;
using Microsoft.Win32.SafeHandles;

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
        string line = $"brassvox: {PlainLine.Of(message)}";
        try
        {
            Console.Error.WriteLine(line);
        }
        catch (Exception)
        {
            // Whatever keeps the console from its work: closed, full, or no handle left to open it.
            Write(line);
        }

        return exitCode;
    }

    // The console's writer takes a handle of its own; where there is none left, the one there is has to do.
    private static void Write(string line)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        try
        {
            using var handle = new SafeFileHandle(2, ownsHandle: false);
            using var errors = new FileStream(handle, FileAccess.Write, bufferSize: 0);
            errors.Write(Encoding.UTF8.GetBytes(line + "\n"));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            // Standard error is closed: the exit code alone has to say it.
        }
    }
}
