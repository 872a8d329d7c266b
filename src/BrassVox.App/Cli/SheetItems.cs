using System.CommandLine;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Files;
using BrassVox.Practice.Log;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Publishing.Handouts;

namespace BrassVox.App.Cli;

/// <summary>The exercises and passages that a command gives away, and for whom.</summary>
/// <param name="mayBeNone">True where a command has something else to give away as well.</param>
internal sealed class SheetItems(bool mayBeNone = false)
{
    private readonly Argument<string[]> _items = new("what")
    {
        Description = "Exercises by id or number, as in open-home-pair or 14; passages by the name of a shipped one or by file",
        Arity = mayBeNone ? ArgumentArity.ZeroOrMore : ArgumentArity.OneOrMore,
    };

    private readonly Option<double> _tempo = CommonOptions.NumberOption(
        "--tempo", "%", TakeOptions.SlowestPercent, TakeOptions.FastestPercent, 100, "Tempo in per cent of the written one");

    /// <summary>Whose data and which player.</summary>
    public WhereOptions Where { get; } = new();

    public void AddTo(Command command, bool withPlayer = true)
    {
        command.Add(_items);

        // A list of names takes in whatever is left over, a misspelt option too.
        _items.Validators.Add(result =>
        {
            foreach (string name in result.Tokens.Select(token => token.Value).Where(name => name.StartsWith('-') && !File.Exists(name)))
            {
                result.AddError($"there is no option \"{name}\" here.");
            }
        });
        command.Add(_tempo);
        Where.AddTo(command, withPlayer);
    }

    /// <summary>The option that leaves the player's takes out of a handout.</summary>
    public static Option<bool> NoTakes() => new("--no-takes") { Description = "Leave out what the player's log holds: error map, course, last takes" };

    /// <summary>The player's takes; null where nothing was ever kept. Faulty ones are said and left out.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="player">The player.</param>
    public TakesSoFar? SoFar(ParseResult arguments, Player player)
    {
        string folder = Where.Folder(arguments);
        if (!File.Exists(Path.Combine(folder, PracticeLog.FileName)) && !Directory.Exists(Path.Combine(folder, "takes")))
        {
            return null;
        }

        TakeListing listing = new TakeStore(folder, TimeProvider.System).List(new TakeFilter(player.Name));
        foreach (string problem in listing.Problems)
        {
            Console.Error.WriteLine($"brassvox: {problem}");
        }

        return new TakesSoFar(listing.Takes, TimeProvider.System.LocalTimeZone);
    }

    /// <summary>What was named, for a player, in the order given.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="profile">The player's profile.</param>
    /// <exception cref="BadCommandLineException">Something is not there, does not fit the player, or is nothing that sounds as a take.</exception>
    /// <exception cref="InvalidDataException">Something cannot be read.</exception>
    public IReadOnlyList<SheetItem> Read(ParseResult arguments, PlayerProfile profile) => Read(arguments, Library(arguments), profile);

    /// <summary>What was named, for a player, in the order given.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="library">The exercises.</param>
    /// <param name="profile">The player's profile.</param>
    /// <exception cref="BadCommandLineException">Something is not there, does not fit the player, or is nothing that sounds as a take.</exception>
    /// <exception cref="InvalidDataException">Something cannot be read.</exception>
    public IReadOnlyList<SheetItem> Read(ParseResult arguments, ExerciseLibrary library, PlayerProfile profile)
    {
        (IReadOnlyList<SheetItem> items, IReadOnlyList<string> left) = Fitting(arguments, library, profile);
        return left.Count == 0 ? items : throw new BadCommandLineException(left[0]);
    }

    /// <summary>The exercises there are; problems of own files are said.</summary>
    /// <param name="arguments">The command line.</param>
    public ExerciseLibrary Library(ParseResult arguments)
    {
        ExerciseLibrary library = ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, Path.Combine(Where.Folder(arguments), "exercises"));
        foreach (FileProblem problem in library.Problems)
        {
            Console.Error.WriteLine($"brassvox: {problem}");
        }

        return library;
    }

    /// <summary>What was named and fits a player, in the order given, and why the rest does not.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="library">The exercises.</param>
    /// <param name="profile">The player's profile.</param>
    /// <exception cref="BadCommandLineException">Something is not there or is nothing that sounds as a take, whoever plays.</exception>
    /// <exception cref="InvalidDataException">Something cannot be read.</exception>
    public (IReadOnlyList<SheetItem> Items, IReadOnlyList<string> Left) Fitting(ParseResult arguments, ExerciseLibrary library, PlayerProfile profile)
    {
        TakeOptions today = new(TempoPercent: arguments.GetValue(_tempo));
        List<SheetItem> items = [];
        List<string> left = [];
        foreach (string name in arguments.GetValue(_items)!)
        {
            (SheetItem? item, string? whyNot) = library.Find(name) is { } exercise
                ? OfExercise(exercise, profile, today)
                : OfPassage(name, Where.Folder(arguments), profile, today);
            if (item is not null)
            {
                items.Add(item);
            }
            else
            {
                left.Add(whyNot!);
            }
        }

        return (items, left);
    }

    private static (SheetItem? Item, string? WhyNot) OfExercise(Exercise exercise, PlayerProfile profile, TakeOptions today)
    {
        if (exercise.IsListening)
        {
            throw new BadCommandLineException($"{exercise.Id} is a listening exercise; only what is played or sung can leave the room. brassvox exercise list names the others.");
        }

        Resolution resolution = ExerciseResolver.Resolve(exercise, profile);
        return resolution.Resolved is { } resolved
            ? (new SheetItem($"{exercise.Number:00}-{exercise.Id}", today.Apply(resolved)), null)
            : (null, resolution.WhyNot);
    }

    private static (SheetItem? Item, string? WhyNot) OfPassage(string name, string folder, PlayerProfile profile, TakeOptions today)
    {
        PassageLoad load = NamedPassage.Read(name, folder, profile)
            ?? throw new BadCommandLineException($"there is no exercise and no passage \"{name}\"; brassvox exercise list names the exercises; a passage of your own is named as it is kept or by its file.");
        if (load.Passage is not { } passage)
        {
            throw new InvalidDataException(load.Problem!.ToString());
        }

        try
        {
            return (new SheetItem($"passage-{Path.GetFileNameWithoutExtension(name)}", PassageExercise.Resolve(passage, profile, new PassageTurn(), today), passage), null);
        }
        catch (ArgumentException error)
        {
            return (null, $"{name}: {error.Message}");
        }
    }
}
