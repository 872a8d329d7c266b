using System.CommandLine;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox completion</c>: what a shell must read to complete commands and options at the Tab key.</summary>
internal static class CompletionCommand
{
    // The program itself says what fits at a place of the line; "/h" and the like are for another shell.
    private const string Bash = """
        _brassvox() {
          local line=${COMP_LINE:0:COMP_POINT} word=${COMP_WORDS[COMP_CWORD]}
          line=${line#*[[:space:]]}
          mapfile -t COMPREPLY < <(compgen -W "$("${COMP_WORDS[0]}" "[suggest:${#line}]" "$line" 2>/dev/null | grep -v '^/')" -- "$word")
        }
        complete -o default -F _brassvox brassvox
        """;

    public static Command Build()
    {
        Command bash = new("bash", "For bash; in ~/.bashrc: source <(brassvox completion bash)");
        bash.SetAction(_ =>
        {
            Console.Out.WriteLine(Bash);
            return ExitCode.Done;
        });
        return new Command("completion", "What a shell reads to complete commands and options at the Tab key") { bash };
    }
}
