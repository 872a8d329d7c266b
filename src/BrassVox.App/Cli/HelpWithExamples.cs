using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using System.Text.RegularExpressions;

namespace BrassVox.App.Cli;

/// <summary>The usual help, and after it an example or two.</summary>
internal sealed partial class HelpWithExamples(HelpAction usual) : SynchronousCommandLineAction
{
    /// <summary>Gives the help of a root command and all below it their examples.</summary>
    public static void AddTo(RootCommand root)
    {
        HelpOption help = root.Options.OfType<HelpOption>().Single();
        help.Action = new HelpWithExamples((HelpAction)help.Action!);
    }

    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        TextWriter output = parseResult.InvocationConfiguration.Output;
        using StringWriter page = new();
        parseResult.InvocationConfiguration.Output = page;
        int code = usual.Invoke(parseResult);
        parseResult.InvocationConfiguration.Output = output;
        output.Write(ToldTwice().Replace(page.ToString(), "unless given)").TrimEnd() + Environment.NewLine);
        IReadOnlyList<string> examples = Examples.Of(PathOf(parseResult.CommandResult));
        if (examples.Count > 0)
        {
            output.WriteLine($"{Environment.NewLine}Examples:");
            foreach (string example in examples)
            {
                output.WriteLine($"  brassvox {example}".TrimEnd());
            }
        }

        return code;
    }

    private static string PathOf(CommandResult result) => result.Parent is CommandResult above
        ? $"{PathOf(above)} {result.Command.Name}".TrimStart()
        : string.Empty;

    // A word's description says in our spelling what holds unless given.
    [GeneratedRegex(@"unless given\)\s+\[default: \w+\]")]
    private static partial Regex ToldTwice();
}
