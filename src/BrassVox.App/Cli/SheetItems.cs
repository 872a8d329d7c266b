using System.CommandLine;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Files;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;

namespace BrassVox.App.Cli;

/// <summary>The exercises and passages that a command gives away, and for whom.</summary>
internal sealed class SheetItems
{
    private readonly Argument<string[]> _items = new("what")
    {
        Description = "Exercises by id or number, as in open-home-pair or 14; passages by the name of a shipped one or by file",
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<double> _tempo = CommonOptions.NumberOption(
        "--tempo", "%", TakeOptions.SlowestPercent, TakeOptions.FastestPercent, 100, "Tempo in per cent of the written one");

    /// <summary>Whose data and which player.</summary>
    public WhereOptions Where { get; } = new();

    public void AddTo(Command command)
    {
        command.Add(_items);
        command.Add(_tempo);
        Where.AddTo(command);
    }

    /// <summary>What was named, for a player, in the order given.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="profile">The player's profile.</param>
    /// <exception cref="InvalidDataException">Something cannot be read, does not fit the player, or is nothing that sounds as a take.</exception>
    public IReadOnlyList<SheetItem> Read(ParseResult arguments, PlayerProfile profile)
    {
        string folder = Where.Folder(arguments);
        ExerciseLibrary library = ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, Path.Combine(folder, "exercises"));
        foreach (FileProblem problem in library.Problems)
        {
            Console.Error.WriteLine($"brassvox: {problem}");
        }

        TakeOptions today = new(TempoPercent: arguments.GetValue(_tempo));
        return [.. arguments.GetValue(_items)!.Select(name => library.Find(name) is { } exercise
            ? OfExercise(exercise, profile, today)
            : OfPassage(name, folder, profile, today))];
    }

    private static SheetItem OfExercise(Exercise exercise, PlayerProfile profile, TakeOptions today)
    {
        if (exercise.IsListening)
        {
            throw new InvalidDataException($"{exercise.Id} is a listening exercise; only what is played or sung can leave the room. brassvox exercise list names the others.");
        }

        ResolvedExercise resolved = ExerciseResolver.Resolve(exercise, profile).Resolved
            ?? throw new InvalidDataException(ExerciseResolver.Resolve(exercise, profile).WhyNot);
        return new SheetItem($"{exercise.Number:00}-{exercise.Id}", today.Apply(resolved));
    }

    private static SheetItem OfPassage(string name, string folder, PlayerProfile profile, TakeOptions today)
    {
        bool isPlainName = !File.Exists(name) && name.All(c => char.IsAsciiLetterOrDigit(c) || c == '-');
        string own = Path.Combine(folder, "passages", name + ".txt");
        if (isPlainName && !File.Exists(own) && !File.Exists(ShippedPassages.PathOf(name, profile.Voice)))
        {
            throw new InvalidDataException($"there is no exercise and no passage \"{name}\"; brassvox exercise list and passage list name them.");
        }

        PassageLoad load = isPlainName && File.Exists(ShippedPassages.PathOf(name, profile.Voice))
            ? ShippedPassages.Load(name, profile)
            : PassageFile.Read(isPlainName ? own : name);
        if (load.Passage is not { } passage)
        {
            throw new InvalidDataException(load.Problem!.ToString());
        }

        try
        {
            return new SheetItem($"passage-{Path.GetFileNameWithoutExtension(name)}", PassageExercise.Resolve(passage, profile, new PassageTurn(), today), passage);
        }
        catch (ArgumentException error)
        {
            throw new InvalidDataException($"{name}: {error.Message}");
        }
    }
}
