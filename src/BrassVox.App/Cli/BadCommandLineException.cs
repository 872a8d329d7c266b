namespace BrassVox.App.Cli;

/// <summary>The command line asks for what there is not, a player, an exercise, a take, or for what does not fit: exit code <see cref="ExitCode.BadCommandLine"/>.</summary>
/// <param name="message">One sentence or two, without the program's name.</param>
internal sealed class BadCommandLineException(string message) : Exception(message);
