using System.Globalization;
using BrassVox.App.Cli;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>Words: note names in all languages, intervals, tunings, parts, body tags, names of players.</summary>
internal sealed class WordReader() : FuzzReader("words", 60)
{
    private static readonly string[] Seeds =
    [
        "Bb2", "F#3", "C-1", "Gx9", "Ebb4", "E♭3", "B♮2", "D𝄫5", "H1", "Heses2", "Fisis3", "Es4", "As2", "Sib3", "Do#4", "B-flat 3", "C-double-sharp 2", "P5", "-m3", "M10", "A29", "d1",
        "equal", "just", "Pythagorean", "meantone", "0,100,200,300,400,500,600,700,800,900,1000,1100", "S-P", "2P+S", "P+2S", "3P-2S", "tongue-root", "throat", "Horn-4", "F3+6", "D4-14.5",
    ];

    private static readonly string[] Dictionary = [.. Seeds, "b", "#", "x", "♭", "es", "is", "+", "-", ",", ".", " ", "P", "S", "9", "0"];

    public override byte[] Make(Random random)
    {
        byte[] word = Utf8(Mutations.Words(random, random.Pick(Seeds), Dictionary));
        return random.Chance(6) ? Mutations.Bytes(random, word) : word;
    }

    public override bool Read(byte[] input, string folder)
    {
        string word = Text(input);
        bool isRead = false;
        if (Pitch.TryParse(word, out Pitch pitch))
        {
            isRead = true;
            Holds(Pitch.Parse(pitch.ToString()) == pitch, "a note reads back from its name");
            Holds(Tuning.Equal.FrequencyHz(pitch, 440) is > 1 and < 50000, "a note has a frequency");
        }

        foreach (NoteNaming naming in Enum.GetValues<NoteNaming>())
        {
            if (NoteNames.TryParse(word, naming, out Pitch named))
            {
                isRead = true;
                Holds(NoteNames.TryParse(NoteNames.Of(named, naming), naming, out Pitch again) && again.MidiNumber == named.MidiNumber, $"{naming}: a note reads back from its name");
            }
        }

        if (Interval.TryParse(word, out Interval interval))
        {
            isRead = true;
            Holds(Interval.Parse(interval.ToString()) == interval, "an interval reads back from its name");
        }

        if (Tuning.TryParse(word, new Pitch(NoteLetter.B, -1, 2), out Tuning? tuning))
        {
            isRead = true;
            Holds(tuning.FrequencyHz(new Pitch(NoteLetter.F, 0, 3), 442) is > 10 and < 10000, "a tuning gives a frequency");
        }

        if (SectionCommand.Read(word) is { } tone)
        {
            isRead = true;
            Holds(Math.Abs(tone.Cents) <= 100, "cents within 100");
        }

        isRead |= PairParts.Listed.Any(part => string.Equals(part.Name, word, StringComparison.OrdinalIgnoreCase));
        isRead |= BodyTags.Parse(word) is not null;
        if (Player.IsName(word))
        {
            Holds(Path.GetFileName(word) == word && word.Length <= Player.LongestName, "a player's name is a file's name");
        }

        try
        {
            Pitch.Parse(word);
        }
        catch (FormatException)
        {
            // The one exception it may answer with.
        }

        return isRead;
    }
}

/// <summary>The command line: every command and option there is, with fitting and unfitting words. What only prints is run.</summary>
internal sealed class ProgramReader() : FuzzReader("command", 10)
{
    private static readonly string[] Harmless = ["resultants", "section", "exercise list", "exercise show", "scene list", "passage list", "passage show", "passage text", "takes list", "takes map", "plan", "profile show", "profile list", "completion"];
    private static readonly string[] Heavy = ["--output", "-o", "--listen", "--train"];
    private static readonly string[] Values = ["Bb1", "F2", "F#3", "C-1", "Gx9", "14", "open-home-pair", "two-breaths-one-pipe", "just", "tuba", "horn", "low", "high", "II", "442.5", "442,5", "0.5", "bash", "--", "-", "[suggest:3]", "[diagram]", "/?", "--a4=440", "-o=x", "@none"];
    private static readonly ThreadLocal<System.CommandLine.RootCommand> Root = new(() => App.Program.Root());
    private static readonly string[] Words = [.. AllWords(App.Program.Root())];
    private static readonly string[][] Paths = [.. AllPaths(App.Program.Root(), [])];

    public override byte[] Make(Random random)
    {
        List<string> words = [.. random.Chance(2) ? random.Pick(Harmless).Split(' ') : random.Pick(Paths)];
        for (int count = random.Next(8); count > 0; count--)
        {
            words.Add(random.Next(5) switch { 0 or 1 => random.Pick(Words), 2 or 3 => random.Pick(Values), _ => Mutations.Word(random) });
        }

        return Utf8(string.Join('\n', words.Select(word => string.Concat(word.Where(c => c is not ('\n' or '\0'))))));
    }

    public override bool Read(byte[] input, string folder)
    {
        string[] arguments = Text(input).Split('\n');
        System.CommandLine.ParseResult parsed = Root.Value!.Parse(arguments);
        string command = "";
        for (System.CommandLine.Parsing.SymbolResult? at = parsed.CommandResult; at is System.CommandLine.Parsing.CommandResult named && named.Parent is not null; at = at.Parent)
        {
            command = named.Command.Name + (command.Length > 0 ? " " + command : "");
        }

        bool runs = parsed.Errors.Count > 0 || (Harmless.Contains(command) && !arguments.Any(word => Heavy.Any(heavy => word.StartsWith(heavy, StringComparison.Ordinal))));
        return runs ? Run([.. arguments, .. parsed.Errors.Count == 0 && HasData(parsed) ? ["--data", folder] : Array.Empty<string>()], null) == 0 : parsed.Errors.Count == 0;
    }

    /// <summary>Runs the program in this process, and looks at what it says.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="wanted">The exit code that must come; null for any but that of a fault of the program.</param>
    public static int Run(string[] arguments, string? wanted)
    {
        (int code, string said, string told) = Aside.Of(() => App.Program.Answer(Root.Value!.Parse(arguments)));
        Holds(code != ExitCode.InternalFault, $"{string.Join(' ', arguments)}: {told}");
        Holds(wanted is null || code.ToString(CultureInfo.InvariantCulture) == wanted, $"{string.Join(' ', arguments)} ends with {code}: {told}");
        Holds(!said.Contains('\u001b', StringComparison.Ordinal), $"{string.Join(' ', arguments)} prints an escape code");
        foreach (string line in told.Split('\n'))
        {
            IsTame(line);
        }

        Holds(code == ExitCode.Done || told.Length > 0, $"{string.Join(' ', arguments)} ends with {code} without a word");
        return code;
    }

    private static bool HasData(System.CommandLine.ParseResult parsed) =>
        parsed.CommandResult.Command.Options.Any(option => option.Name == "--data") && parsed.CommandResult.Children.All(child => child is not System.CommandLine.Parsing.OptionResult { Implicit: false } option || option.Option.Name != "--data");

    private static IEnumerable<string> AllWords(System.CommandLine.Command command) =>
        [command.Name, .. command.Aliases, .. command.Options.SelectMany(option => option.Aliases.Prepend(option.Name)), .. command.Subcommands.SelectMany(AllWords)];

    private static IEnumerable<string[]> AllPaths(System.CommandLine.Command command, string[] above) =>
        [above, .. command.Subcommands.SelectMany(inner => AllPaths(inner, [.. above, inner.Name]))];
}

/// <summary>Takes aside, thread by thread, what would go to the console.</summary>
internal sealed class Aside : TextWriter
{
    private const int Most = 1 << 20;
    private static readonly Aside Output = new();
    private static readonly Aside Errors = new();
    private readonly ThreadLocal<StringWriter> _text = new(() => new StringWriter(CultureInfo.InvariantCulture) { NewLine = "\n" });

    public override System.Text.Encoding Encoding => System.Text.Encoding.UTF8;

    /// <summary>From now on the console is silent.</summary>
    public static void Begin()
    {
        Console.SetOut(Output);
        Console.SetError(Errors);
    }

    public static (int Code, string Said, string Told) Of(Func<int> run)
    {
        int code = run();
        return (code, Output.Taken(), Errors.Taken());
    }

    public override void Write(char value) => _text.Value!.Write(value);

    public override void Write(string? value) => _text.Value!.Write(value);

    public override void WriteLine(string? value) => _text.Value!.Write(value + "\n");

    private string Taken()
    {
        string text = _text.Value!.ToString();
        _text.Value!.GetStringBuilder().Clear();
        return text.Length > Most ? text[..Most] : text;
    }
}
