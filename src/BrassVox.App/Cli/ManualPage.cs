using System.CommandLine;
using System.Globalization;
using System.Reflection;
using System.Text;

namespace BrassVox.App.Cli;

/// <summary>The manual page for man, in the macros that every man knows. What commands and options say of themselves exists once, in the commands.</summary>
internal static class ManualPage
{
    /// <summary>Date of this version, as CHANGES.md has it.</summary>
    internal const string VersionDate = "2026-11-27";

    internal static readonly (string Code, string Meaning)[] ExitCodes =
    [
        ("0", "Done."),
        ("1", "A fault of the program itself."),
        ("2", "The command line cannot be understood, or asks for what there is not (a player, a take, an exercise, an ending of a file to be written) or for what does not fit the player."),
        ("3", "An input file cannot be used (to exercise run and passage run a silent take is none; measure and picture take it, and end with 0)."),
        ("4", "The sound device gives trouble."),
        ("5", "A file cannot be written, or not engraved for want of LilyPond; of the screens: something they should have kept is not kept, and is named."),
        ("6", "The terminal cannot show screens (or input and output are not a terminal)."),
        ("129, 130, 131, 143", "Ended with its terminal (SIGHUP), by Ctrl-C, by SIGQUIT, by SIGTERM."),
    ];

    private static readonly (string Term, string Meaning)[] Words =
    [
        ("P, S", "The played tone, of the lips; the sung tone, of the voice."),
        ("S-P, P+S, 2P-S ...", "What both make together: difference and sum tones. The formula is the name; the sum of its figures is the order."),
        ("fog", "Where two tones lie so near each other's harmonics that their pitches cannot be told apart: not separable."),
        ("aim, grade I, II, III", "How narrow the tolerances are: the aim is what is set, the grade what a take would have passed."),
        ("c", "Cents, a hundredth of an equal semitone, above (+) or below (-) the note asked."),
        ("offset, wander, drift", "How far the middle of a tone lies from its note; how much it moves about that middle; how far it goes from beginning to end. Vibrato counts as none of them. All in cents. measure calls wander spread."),
        ("/s", "Beats a second. Up to 12 they can be counted; faster and too close to be two tones they are grain; two notes asked for stand still under 0.1. A take is called still under 1 over Bb2 and in proportion to P elsewhere, or as its exercise asks."),
        ("dBFS", "Level under the largest sample there can be; dBTP counts the peaks between samples too. LUFS: loudness by ITU-R BS.1770."),
        ("not separable", "Near the unison, the octaves, the twelfth and the fifth and sixth harmonic one microphone cannot tell the two tones apart. No sung pitch is told there, only the beats."),
    ];

    private static readonly string[] Cautions =
    [
        "Play soft and sing full and easy; five minutes, then as much rest. Stop at pain, scratch or lost high notes; hoarseness of weeks belongs to a laryngologist; do not sing into the instrument with a cold.",
        "Glaucoma, recent eye or belly surgery, hernia or high blood pressure: ask a physician before long, loud or high notes. Dizzy: stop and sit down.",
        "Low sustained tones are loud before they seem so: begin quietly, take breaks, and follow the hearing rules of your place. This is information, not medical advice.",
    ];

    /// <summary>The page as text for man.</summary>
    /// <param name="root">All commands.</param>
    public static string Of(RootCommand root)
    {
        StringBuilder page = new();
        string version = (Assembly.GetExecutingAssembly().GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion ?? "").Split('+')[0];
        Line(page, $".TH BRASSVOX 1 {VersionDate} \"BrassVox {version}\" \"User Commands\"");
        Section(page, "NAME");
        Text(page, "brassvox - two pitches at once on a brass instrument, one played, one sung: hear, measure, practise");
        Section(page, "SYNOPSIS");
        Line(page, $".B brassvox\n[{Plain("options")}]\n.br\n.B brassvox\n.I command\n[{Plain("arguments and options")}]");
        Section(page, "DESCRIPTION");
        Text(page, root.Description ?? "");
        Line(page, ".PP");
        Text(page, "Without a command the screens open: Enter does what is marked, Space is silence at once, h lists every key; while you type, Ctrl-T is silence and F1 lists the keys. With --plain they are lines for a screen reader. Results go to standard output, messages to standard error. Numbers take and give a full stop, whatever the machine's language.");
        Section(page, "OPTIONS");
        Options(page, root);
        Example(page, string.Empty);
        Section(page, "COMMANDS");
        foreach (Command command in root.Subcommands)
        {
            Describe(page, command, command.Name);
        }

        Section(page, "WHAT THE FIGURES MEAN");
        Terms(page, Words);
        Section(page, "EXIT STATUS");
        Terms(page, ExitCodes);
        Section(page, "ENVIRONMENT");
        Terms(page, [("BRASSVOX_DATA", "Folder of takes, players and own exercises."), ("XDG_DATA_HOME", "Where that folder lies otherwise, as brassvox; else ~/.local/share, on Windows AppData.")]);
        Section(page, "FILES");
        Terms(page, [("presets", "Beside the program: tones, exercises, scenes and passages, to be read and copied."), ("Licences, THIRD-PARTY.md, CHANGES.md", "Beside the program: packages of others and their licences; what changed.")]);
        Section(page, "CARE");
        for (int i = 0; i < Cautions.Length; i++)
        {
            Line(page, i > 0 ? ".PP" : null);
            Text(page, Cautions[i]);
        }

        return page.ToString();
    }

    private static void Describe(StringBuilder page, Command command, string path)
    {
        if (command.Subcommands.Count > 0)
        {
            foreach (Command below in command.Subcommands)
            {
                Describe(page, below, $"{path} {below.Name}");
            }

            return;
        }

        string arguments = string.Concat(command.Arguments.Select(argument => $" {ArgumentWord(argument)}"));
        Line(page, $".SS \"{Plain(path + arguments)}\"");
        Text(page, command.Description ?? "");
        foreach (Argument argument in command.Arguments)
        {
            Term(page, ArgumentWord(argument), argument.Description ?? "");
        }

        Options(page, command);
        Example(page, path);
    }

    private static void Options(StringBuilder page, Command command)
    {
        foreach (Option option in command.Options.Where(option => !option.Hidden))
        {
            string names = string.Join(", ", option.Aliases.Append(option.Name).Where(name => name[0] == '-').OrderBy(name => name.Length).Distinct());
            string value = option.Arity.MaximumNumberOfValues == 0 || option.ValueType == typeof(bool) ? "" : $" <{option.HelpName ?? option.Name.TrimStart('-')}>";
            string? otherwise = option.HasDefaultValue && option.ValueType != typeof(bool) && !option.ValueType.IsEnum
                ? Convert.ToString(option.GetDefaultValue(), CultureInfo.InvariantCulture)
                : null;
            string rest = (option.Required ? "; has to be given" : "") + (string.IsNullOrEmpty(otherwise) ? "" : $"; {otherwise} unless given");
            string sentence = (option.Description ?? "") + rest;
            Term(page, names + value, sentence.EndsWith('.') ? sentence : sentence + ".");
        }
    }

    private static string ArgumentWord(Argument argument)
    {
        string word = argument.Arity.MaximumNumberOfValues > 1 ? $"<{argument.Name}>..." : $"<{argument.Name}>";
        return argument.Arity.MinimumNumberOfValues == 0 ? $"[{word}]" : word;
    }

    private static void Example(StringBuilder page, string path)
    {
        IReadOnlyList<string> examples = Examples.Of(path);
        if (examples.Count == 0)
        {
            return;
        }

        Line(page, ".PP\nExample:\n.PP\n.RS 4\n.nf");
        foreach (string example in examples)
        {
            Line(page, Plain($"brassvox {example}".TrimEnd()));
        }

        Line(page, ".fi\n.RE");
    }

    private static void Terms(StringBuilder page, IEnumerable<(string Term, string Meaning)> terms)
    {
        foreach ((string term, string meaning) in terms)
        {
            Term(page, term, meaning);
        }
    }

    private static void Term(StringBuilder page, string term, string meaning)
    {
        Line(page, $".TP\n.B \"{Plain(term)}\"");
        Text(page, meaning);
    }

    private static void Section(StringBuilder page, string title) => Line(page, $".SH {(title.Contains(' ') ? $"\"{title}\"" : title)}");

    // A sentence begins a line, as man wants it.
    private static void Text(StringBuilder page, string text) => Line(page, Guarded(Plain(text).Replace(". ", ".\n", StringComparison.Ordinal)));

    /// <summary>A full stop or an apostrophe at the beginning of any line would be taken for a request.</summary>
    internal static string Guarded(string lines) => string.Join('\n', lines.Split('\n').Select(line => line.StartsWith('.') || line.StartsWith('\'') ? $"\\&{line}" : line));

    // On one line: what stands behind a request ends with it.
    private static string Plain(string text) => text
        .Replace("\\", "\\e", StringComparison.Ordinal)
        .Replace("\"", "\\(dq", StringComparison.Ordinal)
        .Replace("-", "\\-", StringComparison.Ordinal);

    private static void Line(StringBuilder page, string? line)
    {
        if (line is not null)
        {
            page.Append(line).Append('\n');
        }
    }
}
