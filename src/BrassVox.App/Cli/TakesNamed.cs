using System.CommandLine;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Publishing.Handouts;

namespace BrassVox.App.Cli;

/// <summary>The takes that a handout is to look at one by one, as named on the command line.</summary>
internal sealed class TakesNamed
{
    private const string Newest = "last";

    private readonly Option<string[]> _takes = new("--take")
    {
        Description = "A kept take to look at: its id, as takes list prints it, or last; may be given several times",
        HelpName = "id",
    };

    private readonly Option<bool> _withSound = WithSound();

    /// <summary>--with-sound, with its one promise.</summary>
    public static Option<bool> WithSound() => new("--with-sound") { Description = "Take in the sound of these takes; without it no sound of a person leaves the machine" };

    public void AddTo(Command command)
    {
        command.Add(_takes);
        command.Add(_withSound);
    }

    /// <summary>The takes named, in their order, and whose they are: without --player that of the takes.</summary>
    /// <param name="arguments">The command line.</param>
    /// <param name="where">Whose data and which player.</param>
    /// <param name="library">The exercises.</param>
    /// <returns>The player and the reviews, or what is wrong with its exit code.</returns>
    /// <exception cref="BadCommandLineException">There is no such player.</exception>
    /// <exception cref="InvalidDataException">The player's file cannot be used.</exception>
    public (Player Player, IReadOnlyList<TakeReview> Reviews, (int Code, string Why)? Failure) Read(ParseResult arguments, WhereOptions where, ExerciseLibrary library)
    {
        Player player = where.Player(arguments);
        string[] ids = [.. (arguments.GetValue(_takes) ?? []).Distinct(StringComparer.Ordinal)];
        if (ids.Length == 0)
        {
            return arguments.GetValue(_withSound) ? Refused(ExitCode.BadCommandLine, "--with-sound is about takes; name one with --take.") : (player, [], null);
        }

        string folder = where.Folder(arguments);
        var reviews = new TakeReviews(folder, library, TimeProvider.System);
        if (!reviews.IsAnythingKept)
        {
            return Refused(ExitCode.BadCommandLine, $"no take is kept in {folder} yet; exercise run --keep and Play along keep them.");
        }

        TakeListing listing = reviews.List();
        List<LoggedTake> found = [];
        foreach (string id in ids)
        {
            if ((id == Newest ? listing.Takes.LastOrDefault(take => (take.Take.PlayerName ?? "") == player.Name) : listing.Takes.FirstOrDefault(take => take.Take.Id == id)) is not { } take)
            {
                return Refused(ExitCode.BadCommandLine, $"there is no take \"{id}\"{(id == Newest && player.Name.Length > 0 ? $" of {player.Name}" : "")}; brassvox takes list names them.");
            }

            if (found.All(other => other.Take.Id != take.Take.Id))
            {
                found.Add(take);
            }
        }

        string[] names = [.. found.Select(take => take.Take.PlayerName ?? "").Distinct(StringComparer.Ordinal)];
        if (names.Length > 1)
        {
            return Refused(ExitCode.BadCommandLine, $"these are takes of {string.Join(" and ", names.Select(name => name.Length > 0 ? name : "the player without a name"))}; a handout is one player's.");
        }

        if (names[0] != player.Name)
        {
            if (where.NamesPlayer(arguments))
            {
                return Refused(ExitCode.BadCommandLine, $"{found[0].Take.Id} is a take of {(names[0].Length > 0 ? names[0] : "the player without a name")}, not of {player.Name}.");
            }

            player = (names[0].Length == 0 || Player.IsName(names[0]) ? new PlayerFiles(folder).Read(names[0]) : null) ?? (Player.Usual with { Name = names[0] }).With(found[0].Take.Player);
        }

        LoggedTake[] all = [.. listing.Takes.Where(take => (take.Take.PlayerName ?? "") == names[0])];
        TakeReview[] made = [.. found.Select(take => reviews.Of(take.Take, player, all, arguments.GetValue(_withSound)))];
        foreach (string remark in listing.Problems.Concat(reviews.Remarks))
        {
            Console.Error.WriteLine($"brassvox: {remark}");
        }

        return (player, made, null);
    }

    private static (Player Player, IReadOnlyList<TakeReview> Reviews, (int Code, string Why)? Failure) Refused(int code, string why) => (Player.Usual, [], (code, why));
}
