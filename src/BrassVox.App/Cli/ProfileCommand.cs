using System.CommandLine;
using System.Globalization;
using System.Text;
using BrassVox.Analysis;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox profile list | show | set | use | remove</c>: who plays, in a studio several.</summary>
internal static class ProfileCommand
{
    public static Command Build() => new("profile", "Who plays: instrument, voice, range, pitch, note names; several players in a studio")
    {
        List(),
        Show(),
        Set(),
        Use(),
        Remove(),
    };

    private static Command List()
    {
        var where = new WhereOptions();
        Option<bool> json = CommonOptions.Json();
        Command command = new("list", "List the players") { json };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            var files = new PlayerFiles(where.Folder(arguments));
            string current = files.CurrentName;
            PlayerReport[] players = [.. files.Names.Select(name => PlayerReport.Of(files.Read(name)!, name == current))];
            if (arguments.GetValue(json))
            {
                Console.Out.Write(TakesReportJson.Text(players));
            }
            else if (players.Length == 0)
            {
                Console.Out.WriteLine("none kept yet; profile set keeps one");
            }
            else
            {
                foreach (PlayerReport player in players)
                {
                    Console.Out.WriteLine($"{(player.IsCurrent ? "*" : " ")} {(player.Name.Length > 0 ? player.Name : "(no name)"),-20}  {player.Instrument}, {player.Voice} voice");
                }
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static Command Show()
    {
        var where = new WhereOptions();
        Argument<string?> name = NameArgument();
        Option<bool> json = CommonOptions.Json();
        Command command = new("show", "Show a player") { name, json };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            var files = new PlayerFiles(where.Folder(arguments));
            Player player = Named(files, arguments.GetValue(name)) ?? Player.Usual;
            Console.Out.Write(arguments.GetValue(json) ? TakesReportJson.Text([PlayerReport.Of(player, player.Name == files.CurrentName)]) : Text(player));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Set()
    {
        var where = new WhereOptions();
        var profile = new PlayerOptions();
        Argument<string?> name = NameArgument();
        Option<NoteNaming> names = PlayerOptions.Words("--note-names", NoteNaming.English, "Language of note names", PlayerOptions.OfPlayer);
        Option<bool?> transposed = new("--reads-transposed") { Description = "true when parts are read in the instrument's transposed treble clef", HelpName = "true|false" };
        Option<Pitch?> change = CommonOptions.NoteOption("--register-change", "Lowest note of the voice's upper register");
        Option<DisplayUnit> unit = PlayerOptions.Words("--unit", DisplayUnit.Cents, "Unit shown first", PlayerOptions.OfPlayer);
        Option<string?> from = new("--a4-from") { Description = "A WAV file with one held note, see --note: A4 is taken from it, 415 to 466 Hz", HelpName = "file" };
        Option<Pitch?> note = CommonOptions.MeasuredNoteOption("--note", "The note that is held in --a4-from, concert pitch (the instrument's home note unless given)");
        Command command = new("set", "Keep a new player, or change one; only what is given changes") { name, names, transposed, change, unit, from, note };
        profile.AddTo(command, withNotes: false);
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            var files = new PlayerFiles(where.Folder(arguments));
            string called = arguments.GetValue(name) ?? files.CurrentName;
            if (called.Length > 0 && !Player.IsName(called))
            {
                return Failure.Say(ExitCode.BadCommandLine, $"\"{called}\" cannot be a name: letters, digits, spaces, hyphens and underscores, at most {Player.LongestName}.");
            }

            Player next = Changed();
            if (next.Profile.LowestSung.MidiNumber > next.Profile.HighestSung.MidiNumber)
            {
                return Failure.Say(ExitCode.BadCommandLine, $"the lowest sung note, {next.Profile.LowestSung}, lies above the highest, {next.Profile.HighestSung}.");
            }

            double? foundHz = null;
            if (arguments.GetValue(from) is { } file)
            {
                Pitch held = arguments.GetValue(note) ?? HomePairs.Of(next.Profile.Instrument, next.Profile.Voice)[0].Played;
                (foundHz, int code) = A4From(file, held, next.Profile.A4Hz);
                if (foundHz is null)
                {
                    return code;
                }
            }

            // What takes its time is done: read once more what others may have written meanwhile.
            using FolderTurn turn = FolderTurn.Take(where.Folder(arguments));
            next = Changed();
            next = foundHz is { } found ? next with { Profile = next.Profile with { A4Hz = found } } : next;
            files.Write(next);
            if (files.Names.Count == 1)
            {
                files.Choose(next.Name);
            }

            Console.Out.Write(Text(next));
            return ExitCode.Done;

            Player Changed()
            {
                Player known = files.Read(called) ?? Player.Usual with { Name = called };
                PlayerProfile given = profile.Read(arguments, known.Profile);
                Player turned = known.With(given with { RegisterChange = arguments.GetValue(change) ?? given.RegisterChange });
                return turned with
                {
                    NoteNames = arguments.GetResult(names) is { Implicit: false } ? arguments.GetValue(names) : known.NoteNames,
                    ReadsTransposed = arguments.GetValue(transposed) ?? turned.ReadsTransposed,
                    Unit = arguments.GetResult(unit) is { Implicit: false } ? arguments.GetValue(unit) : known.Unit,
                };
            }
        });
        return command;
    }

    private static Command Use()
    {
        var where = new WhereOptions();
        Argument<string> name = new("name") { Description = "Name of the player" };
        Command command = new("use", "Choose who practises: the screens and all commands take this player") { name };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            var files = new PlayerFiles(where.Folder(arguments));
            Player player = Named(files, arguments.GetValue(name))!;
            files.Choose(player.Name);
            Console.Out.WriteLine(TakesText.Whose(player));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Remove()
    {
        var where = new WhereOptions();
        Argument<string> name = new("name") { Description = "Name of the player" };
        Command command = new("remove", "Remove a player; takes stay until they are deleted") { name };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            var files = new PlayerFiles(where.Folder(arguments));
            files.Remove(Named(files, arguments.GetValue(name))!.Name);
            return ExitCode.Done;
        });
        return command;
    }

    private static Argument<string?> NameArgument() => new("name") { Description = "Name of the player (the one chosen, unless given)", Arity = ArgumentArity.ZeroOrOne };

    /// <summary>A player by name; the current one without a name, null when there is none at all.</summary>
    /// <exception cref="BadCommandLineException">There is none of that name.</exception>
    private static Player? Named(PlayerFiles files, string? name) => name is null ? files.Current() : WhereOptions.Named(files, name);

    private static (double? A4Hz, int Code) A4From(string file, Pitch note, double nowHz)
    {
        if (WavInput.Read(file) is not { } sound)
        {
            return (null, ExitCode.UnusableInput);
        }

        double hz = EqualTemperament.FrequencyHz(note.MidiNumber, nowHz);
        var prior = new DuetPrior(hz, hz * 1.5, true, false, Cents.Above(hz, -200), Cents.Above(hz, 200), Cents.Above(hz, 600), Cents.Above(hz, 800));
        List<AnalysisFrame> frames = [];
        new DuetTracker(sound.SampleRateHz, prior).Push(sound.Mono(), frames);
        return TuningNote.A4Hz(note, frames) is { } a4
            ? (a4, ExitCode.Done)
            : (null, Failure.Say(ExitCode.UnusableInput, $"{file}: no {note} of half a second that would put A4 between 415 and 466 Hz. Hold one note, and name it with --note."));
    }

    private static string Text(Player player)
    {
        PlayerProfile profile = player.Profile;
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{TakesText.Whose(player)}");
        string change = profile.RegisterChange is { } upper ? $", upper register from {NoteNames.Of(upper, player.NoteNames)}" : "";
        text.AppendLine(CultureInfo.InvariantCulture, $"  sings    {NoteNames.Of(profile.LowestSung, player.NoteNames)} to {NoteNames.Of(profile.HighestSung, player.NoteNames)}{change}");
        text.AppendLine(CultureInfo.InvariantCulture, $"  tuning   {profile.TuningName}, aim {profile.Aim}");
        text.AppendLine(CultureInfo.InvariantCulture, $"  reads    {(player.ReadsTransposed ? "the transposed treble clef" : "as it sounds")}, note names {player.NoteNames.ToString().ToLowerInvariant()}");
        text.AppendLine(CultureInfo.InvariantCulture, $"  shows    {(player.Unit == DisplayUnit.Cents ? "cents, then beats" : "beats, then cents")}");
        return text.ToString();
    }
}
