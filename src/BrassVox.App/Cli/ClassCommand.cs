using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Handouts;
using BrassVox.Publishing.Notation;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox class WHAT... --output FOLDER</c>: a handout for every student, in their own notes.</summary>
internal static class ClassCommand
{
    private const int MostWorkers = 256;

    public static Command Build(Func<TonePresets> loadTones)
    {
        SheetItems items = new();
        Option<string> output = new("--output", "-o") { Description = "Folder for the handouts", Required = true, HelpName = "folder" };
        Option<string> title = new("--title") { DefaultValueFactory = _ => "Two tones, one player", Description = "Title of the sheets", HelpName = "text" };
        Option<string[]> players = new("--player") { Description = "Name of a player; may be given several times (all that are kept, unless given)", HelpName = "name" };
        Option<int?> workers = CommonOptions.WholeOption("--workers", 1, MostWorkers, "How many cores work at it (all unless given)");
        Command command = new("class", "Write a handout for every player that is kept, each in their own notes, names and octave");
        items.AddTo(command, withPlayer: false);
        Option<bool> noTakes = SheetItems.NoTakes();
        Option<bool> lastTake = new("--last-take") { Description = "Add a look at each player's last take" };
        Option<bool> withSound = TakesNamed.WithSound();
        foreach (Option option in new Option[] { players, title, noTakes, lastTake, withSound, workers, output })
        {
            command.Add(option);
        }

        command.SetAction(arguments =>
        {
            if (string.IsNullOrWhiteSpace(arguments.GetValue(title)))
            {
                return Failure.Say(ExitCode.BadCommandLine, "--title: a sheet has a name; write a few words, or leave --title out.");
            }

            if (arguments.GetValue(withSound) && !arguments.GetValue(lastTake))
            {
                return Failure.Say(ExitCode.BadCommandLine, "--with-sound is about takes; add --last-take.");
            }

            List<ClassMember> members = Members(
                arguments, items, arguments.GetValue(players) ?? [], withTakes: !arguments.GetValue(noTakes), arguments.GetValue(lastTake), arguments.GetValue(withSound));
            if (members.Count == 0)
            {
                return Failure.Say(ExitCode.BadCommandLine, "nothing of that fits anybody: no handout was written.");
            }

            if (File.Exists(arguments.GetValue(output)))
            {
                return Failure.Say(ExitCode.CannotStore, $"{arguments.GetValue(output)} is a file; --output names a folder for the handouts.");
            }

            TonePresets tones = loadTones();
            var handouts = new ClassHandouts((instrument, voice) => PlayerTones.Engine(tones, instrument, voice), new Engraver(), arguments.GetValue(workers) ?? Math.Min(Environment.ProcessorCount, MostWorkers));
            var teller = new Teller();
            using EndAsked ended = new();
            try
            {
                handouts.Write(members, arguments.GetValue(title)!, arguments.GetValue(output)!, teller.Tell, ended.Token);
            }
            catch (OperationCanceledException)
            {
                teller.End();
                return Failure.Say(ended.Code, "ended before all handouts were written; those named above are whole.");
            }

            teller.End();
            Console.Out.Write(teller.Sum());
            return ExitCode.Done;
        });
        return command;
    }

    private static List<ClassMember> Members(ParseResult arguments, SheetItems items, string[] names, bool withTakes, bool lastTake, bool withSound)
    {
        var files = new PlayerFiles(items.Where.Folder(arguments));
        IReadOnlyList<string> meant = names.Length > 0 ? [.. names.Distinct(StringComparer.Ordinal)] : files.Names;
        if (meant.Count == 0)
        {
            throw new BadCommandLineException("no player is kept yet; brassvox profile set NAME keeps one.");
        }

        ExerciseLibrary library = items.Library(arguments);
        var reviews = new TakeReviews(items.Where.Folder(arguments), library, TimeProvider.System);
        List<ClassMember> members = [];
        foreach (string name in meant)
        {
            Player player = WhereOptions.Named(files, name);
            (IReadOnlyList<SheetItem> fitting, IReadOnlyList<string> left) = items.Fitting(arguments, library, player.Profile);
            foreach (string why in left)
            {
                Console.Error.WriteLine($"brassvox: left out for {(name.Length > 0 ? name : "the player")}: {why}");
            }

            if (fitting.Count > 0)
            {
                TakesSoFar? soFar = withTakes || lastTake ? items.SoFar(arguments, player) : null;
                TakeReview[] looked = lastTake && soFar is { HasTakes: true } ? [reviews.Of(soFar.Takes[^1].Take, player, soFar.Takes, withSound)] : [];
                members.Add(new ClassMember(player, fitting, withTakes ? soFar : null, looked));
            }
        }

        foreach (string remark in reviews.Remarks)
        {
            Console.Error.WriteLine($"brassvox: {remark}");
        }

        return members;
    }

    /// <summary>Says how far it is: on a terminal in one line that changes, else in a line for each handout only.</summary>
    private sealed class Teller
    {
        private readonly bool _isTerminal = !Console.IsErrorRedirected;
        private readonly Stopwatch _watch = Stopwatch.StartNew();
        private int _handouts;
        private long _bytes;
        private bool _open;

        public void Tell(ClassProgress progress)
        {
            if (progress.Written is { } written)
            {
                End();
                _handouts++;
                _bytes += written.Bytes;
                Console.Out.Write(string.Create(CultureInfo.InvariantCulture, $"{written.Path}  {HandoutCommand.Contents(written.Exercises, written.Takes)}, {HandoutCommand.Size(written.Bytes)}\n"));
            }

            if (_isTerminal)
            {
                _open = true;
                Console.Error.Write(string.Create(CultureInfo.InvariantCulture, $"\r{progress.SheetsMade} of {progress.Sheets} made, {_watch.Elapsed.TotalSeconds:F0} s "));
            }
        }

        /// <summary>Clears the changing line.</summary>
        public void End()
        {
            if (_open)
            {
                Console.Error.Write("\r" + new string(' ', 40) + "\r");
                _open = false;
            }
        }

        public string Sum() => string.Create(
            CultureInfo.InvariantCulture,
            $"{_handouts} {(_handouts == 1 ? "handout" : "handouts")}, {HandoutCommand.Size(_bytes)}, {_watch.Elapsed.TotalSeconds:F1} s\n");
    }
}
