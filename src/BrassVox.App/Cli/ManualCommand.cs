using System.CommandLine;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox manual</c>: the manual page, made from the commands themselves.</summary>
internal static class ManualCommand
{
    public static Command Build(Func<RootCommand> root)
    {
        Command command = new("manual", "Print the manual page: brassvox manual | man -l -, or keep it as brassvox.1 where man looks");
        command.SetAction(_ =>
        {
            Console.Out.Write(ManualPage.Of(root()));
            return ExitCode.Done;
        });
        return command;
    }
}
