using System.CommandLine;
using System.Text.RegularExpressions;
using BrassVox.App;
using BrassVox.App.Cli;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>Help, manual page, README and the commands themselves say the same. No outside source: the commands are the truth.</summary>
public sealed partial class ManualTests
{
    private static readonly RootCommand Root = Program.Root();
    private static readonly string Readme = File.ReadAllText(Path.Combine(Repository.Root, "README.md"));

    private static IEnumerable<(string Path, Command Command)> Leaves(Command command, string path = "") => command.Subcommands.Count == 0
        ? [(path, command)]
        : command.Subcommands.SelectMany(below => Leaves(below, $"{path} {below.Name}".TrimStart()));

    [Fact]
    public void Every_command_has_an_example_that_the_program_understands()
    {
        foreach ((string path, Command command) in Leaves(Root).Append(("", Root)))
        {
            Assert.True(Examples.Of(path).Count > 0, $"{path}: no example");
            Assert.All(Examples.Of(path), example =>
            {
                ParseResult parsed = Root.Parse(example);
                Assert.True(parsed.Errors.Count == 0, $"{example}: {string.Join(" ", parsed.Errors)}");
                Assert.Equal(command.Name, parsed.CommandResult.Command.Name);
            });
        }

        HashSet<string> paths = [.. Leaves(Root).Select(leaf => leaf.Path), ""];
        Assert.All(Examples.Paths, path => Assert.Contains(path, paths));
    }

    [Fact]
    public void The_table_of_exit_codes_is_that_of_the_manual_page() => Assert.All(
        ManualPage.ExitCodes,
        row => Assert.Contains($"\n| {row.Code} | {char.ToLowerInvariant(row.Meaning[0])}{row.Meaning[1..].TrimEnd('.')} |\n", Readme, StringComparison.Ordinal));

    [Fact]
    public void Everything_that_can_be_given_is_described_and_numbers_have_their_range()
    {
        foreach ((string path, Command command) in Leaves(Root))
        {
            Assert.False(string.IsNullOrWhiteSpace(command.Description), path);
            Assert.All(command.Arguments, argument => Assert.False(string.IsNullOrWhiteSpace(argument.Description), $"{path} {argument.Name}"));
            foreach (Option option in command.Options)
            {
                Assert.False(string.IsNullOrWhiteSpace(option.Description), $"{path} {option.Name}");
                Type type = Nullable.GetUnderlyingType(option.ValueType) ?? option.ValueType;
                if (type == typeof(double) || type == typeof(int))
                {
                    Assert.True(Range().IsMatch(option.Description!), $"{path} {option.Name} says no range: {option.Description}");
                }
            }
        }
    }

    // groff(7), Control characters: a line that begins with a full stop or an apostrophe is a request.
    [Theory]
    [InlineData("Folder of takes. .txt ends their names", "Folder of takes.\n\\&.txt ends their names")]
    [InlineData("'own' first. 'other' then", "\\&'own' first.\n\\&'other' then")]
    [InlineData("plain", "plain")]
    public void No_sentence_of_the_manual_is_taken_for_a_request(string said, string written)
    {
        Command command = new("one", said);
        string page = ManualPage.Of([command]);
        Assert.Contains($".SS \"one\"\n{written}\n", page, StringComparison.Ordinal);
        Assert.All(page.Split('\n').Where(line => line.StartsWith('.') || line.StartsWith('\'')), line => Assert.Matches("^\\.(TH|SH|SS|PP|TP|B|I|RS|RE|nf|fi|br)( |$)", line));
    }

    [Fact]
    public void The_manual_page_holds_every_command_and_every_option()
    {
        string page = ManualPage.Of(Program.Root()).Replace("\\-", "-", StringComparison.Ordinal);
        foreach ((string path, Command command) in Leaves(Root))
        {
            string own = SectionOf(page, path);
            Assert.All(command.Options, option => Assert.Contains(option.Name, own, StringComparison.Ordinal));
            Assert.All(Examples.Of(path), example => Assert.Contains($"brassvox {example}", own.Replace("\n", " ", StringComparison.Ordinal).Replace(".\\&", ".", StringComparison.Ordinal), StringComparison.Ordinal));
        }

    }

    [Fact]
    public void Readme_names_every_command_and_no_option_that_is_none()
    {
        string promised = Readme[Readme.IndexOf("## What the commands promise", StringComparison.Ordinal)..];
        Assert.All(Root.Subcommands, command => Assert.Contains($"`{command.Name}`", promised, StringComparison.Ordinal));
        var known = Leaves(Root).SelectMany(leaf => leaf.Command.Options).Concat(Root.Options).Select(option => option.Name).ToHashSet();
        string[] others = ["--project", "--output", "--global", "--add-source", "--self-contained"];
        Assert.All(OptionWord().Matches(Readme).Select(match => match.Value), word => Assert.True(known.Contains(word) || others.Contains(word), $"README.md: {word} is no option of any command"));
    }

    [Theory]
    [InlineData("passage run --help", "brassvox passage run two-breaths-one-pipe")]
    [InlineData("takes note -h", "brassvox takes note throat --take last")]
    [InlineData("--help", "brassvox --demo")]
    public void Help_is_given_without_what_else_is_needed_and_ends_with_an_example(string line, string example)
    {
        CommandLineResult run = CommandLine.Run(line);
        Assert.Equal(0, run.ExitCode);
        Assert.Contains(example, run.Output[run.Output.IndexOf("Examples:", StringComparison.Ordinal)..], StringComparison.Ordinal);
        Assert.DoesNotContain("[default: Tuba]", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_newest_change_is_of_this_version()
    {
        string changes = File.ReadAllText(Path.Combine(Repository.Root, "src", "BrassVox.App", "CHANGES.md"));
        string version = typeof(Program).Assembly.GetName().Version!.ToString(3);
        Assert.Equal($"## {version} ({ManualPage.VersionDate})", changes.Split('\n').First(line => line.StartsWith("## ", StringComparison.Ordinal)));
    }

    private static string SectionOf(string page, string path)
    {
        int start = page.IndexOf($"\n.SS \"{path} ", StringComparison.Ordinal);
        start = start >= 0 ? start : page.IndexOf($"\n.SS \"{path}\"", StringComparison.Ordinal);
        Assert.True(start >= 0, $"{path} is not in the manual page");
        int end = page.IndexOf("\n.S", start + 1, StringComparison.Ordinal);
        return page[start..end];
    }

    [GeneratedRegex(@"-?\d+(\.\d+)? to -?\d+|in seconds|cents or beats a second")]
    private static partial Regex Range();

    [GeneratedRegex(@"(?<![\w-])--[a-z][a-z0-9-]*")]
    private static partial Regex OptionWord();
}
