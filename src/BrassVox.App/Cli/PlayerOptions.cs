using System.CommandLine;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>The options that say who plays.</summary>
internal sealed class PlayerOptions
{
    private readonly Option<Instrument> _instrument = Words("--instrument", Instrument.Tuba, "What is played", OfPlayer);
    private readonly Option<VoiceKind> _voice = Words("--voice", VoiceKind.Low, "Which voice sings", OfPlayer);
    private readonly Option<Pitch?> _lowest = CommonOptions.MeasuredNoteOption("--lowest", "Lowest note sung with ease (the player's own; where none is kept F2 for low voices, F3 for high ones)");
    private readonly Option<Pitch?> _highest = CommonOptions.MeasuredNoteOption("--highest", "Highest note sung with ease (the player's own; where none is kept D4 or C5)");
    private readonly Option<Pitch?> _played = CommonOptions.MeasuredNoteOption("--played", "A played note in place of the home note; needs --sung");
    private readonly Option<Pitch?> _sung = CommonOptions.MeasuredNoteOption("--sung", "A sung note in place of the home note; needs --played");
    private readonly Option<double?> _a4 = CommonOptions.A4OfPlayer();
    private readonly Option<string?> _tuning = CommonOptions.TuningOfPlayer("just");
    private readonly Option<Pitch?> _root = CommonOptions.NoteOption("--root", "Note that keeps its equal-tempered place, as in Bb1 (the player's own; the played note where none is kept)");
    private readonly Option<Grade> _aim = Words("--aim", Grade.II, "How narrow the tolerances are", OfPlayer);

    /// <summary>Adds the options.</summary>
    /// <param name="command">The command.</param>
    /// <param name="withNotes">False leaves out those that name a pair.</param>
    public void AddTo(Command command, bool withNotes = true)
    {
        foreach (Option option in new Option[] { _instrument, _voice, _lowest, _highest, _a4, _tuning, _root, _aim })
        {
            command.Add(option);
        }

        if (!withNotes)
        {
            return;
        }

        command.Add(_played);
        command.Add(_sung);
        command.Validators.Add(result =>
        {
            if (result.GetResult(_played) is null != result.GetResult(_sung) is null)
            {
                result.AddError("--played and --sung are given together, or neither is.");
            }
        });
    }

    /// <summary>What was given, over what is known of the player.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="known">The player's profile; another instrument or voice than theirs begins from its usual range. Null when none is known.</param>
    public PlayerProfile Read(ParseResult arguments, PlayerProfile? known = null)
    {
        Instrument instrument = Given(arguments, _instrument) ?? known?.Instrument ?? Instrument.Tuba;
        VoiceKind voice = Given(arguments, _voice) ?? known?.Voice ?? VoiceKind.Low;
        PlayerProfile start = known?.With(instrument, voice) ?? PlayerProfile.Usual(instrument, voice);
        return start with
        {
            LowestSung = arguments.GetValue(_lowest) ?? start.LowestSung,
            HighestSung = arguments.GetValue(_highest) ?? start.HighestSung,
            A4Hz = arguments.GetValue(_a4) ?? start.A4Hz,
            TuningName = arguments.GetValue(_tuning) ?? start.TuningName,
            TuningRoot = arguments.GetValue(_root) ?? start.TuningRoot,
            Aim = Given(arguments, _aim) ?? start.Aim,
        };
    }

    private static T? Given<T>(ParseResult arguments, Option<T> option)
        where T : struct => arguments.GetResult(option) is { Implicit: false } ? arguments.GetValue(option) : null;

    public PairChoice? Choice(ParseResult arguments) =>
        arguments.GetValue(_played) is { } played && arguments.GetValue(_sung) is { } sung ? new PairChoice(played, sung) : null;

    /// <summary>A word as it is typed and as ids are written: BothTones is both-tones.</summary>
    /// <param name="name">The name in code.</param>
    public static string Hyphened(string name) =>
        string.Concat(name.Select((c, i) => char.IsUpper(c) && i > 0 ? $"-{char.ToLowerInvariant(c)}" : char.ToLowerInvariant(c).ToString()));

    /// <summary>Says of an option that the kept player's own value holds unless it is given.</summary>
    /// <param name="usual">What holds where no player is kept.</param>
    public static string OfPlayer(string usual) => $"the player's own; {usual} where none is kept";

    /// <summary>An option whose values are words, in any case, compared ordinally.</summary>
    /// <param name="name">Name of the option.</param>
    /// <param name="otherwise">The value where it is not given; only a word for what is usual where <paramref name="unless"/> is given.</param>
    /// <param name="description">What it is.</param>
    /// <param name="unless">Says what holds where it is not given, from the word for <paramref name="otherwise"/>; null for that word alone.</param>
    public static Option<T> Words<T>(string name, T otherwise, string description, Func<string, string>? unless = null)
        where T : struct, Enum
    {
        string[] words = [.. Enum.GetNames<T>().Select(word => typeof(T) == typeof(Grade) ? word : Hyphened(word))];
        string list = string.Join(", ", words);
        Option<T> option = new(name)
        {
            Description = $"{description}: {list} ({(unless ?? (word => $"{word} unless given"))(words[Array.IndexOf(Enum.GetValues<T>(), otherwise)])})",
            HelpName = "word",
            DefaultValueFactory = unless is null ? _ => otherwise : null,
            CustomParser = result =>
            {
                string text = result.Tokens[0].Value;
                int at = Array.FindIndex(words, word => string.Equals(word, text, StringComparison.OrdinalIgnoreCase));
                if (at < 0)
                {
                    result.AddError($"{name} takes one of {list}, not \"{text}\".");
                    return otherwise;
                }

                return Enum.GetValues<T>()[at];
            },
        };
        option.CompletionSources.Clear();
        option.CompletionSources.Add(words);
        return option;
    }
}
