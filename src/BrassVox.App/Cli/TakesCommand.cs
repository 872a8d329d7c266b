using System.CommandLine;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox takes list | map | note | copy | delete | export | import</c>: what was kept, and what it says.</summary>
internal static class TakesCommand
{
    public static Command Build() => new("takes", "Look back: takes that were kept, where they fail, how it goes from week to week")
    {
        List(),
        Map(),
        Note(),
        Copy(),
        Delete(),
        Export(),
        Import(),
    };

    private static Command List()
    {
        var where = new WhereOptions();
        Option<string?> exercise = new("--exercise") { Description = "Only takes of one exercise", HelpName = "id" };
        Option<bool> json = CommonOptions.Json();
        Command command = new("list", "List the takes of a player, newest last, and the body notes between them") { exercise, json };
        where.AddTo(command);
        command.SetAction(arguments =>
        {
            Player player = where.Player(arguments);
            TakeStore store = Store(where.Folder(arguments));
            TakeListing listing = store.List(new TakeFilter(player.Name, arguments.GetValue(exercise)));
            // Where one exercise is asked for, what was noted between takes is of none.
            IReadOnlyList<BodyNote> between = arguments.GetValue(exercise) is null ? store.NotesBetween(new TakeFilter(player.Name)) : [];
            Warn(listing.Problems);
            Console.Out.Write(arguments.GetValue(json)
                ? TakesReportJson.Text([.. listing.Takes.Select(TakeLineReport.Of).Concat(between.Select(TakeLineReport.Of)).OrderBy(line => line.MadeAt)])
                : TakesText.List(listing.Takes, between, player));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Map()
    {
        var where = new WhereOptions();
        Option<bool> json = CommonOptions.Json();
        Command command = new("map", "Where a player's takes fail, by interval and register; weeks; how sure they were; how much was sung") { json };
        where.AddTo(command);
        command.SetAction(arguments =>
        {
            Player player = where.Player(arguments);
            TakeStore store = Store(where.Folder(arguments));
            TakeListing listing = store.List(new TakeFilter(player.Name));
            Warn(listing.Problems);
            TimeZoneInfo zone = TimeProvider.System.LocalTimeZone;
            VoiceLoad load = VoiceLoad.Of(store.Log.Spells(new TakeFilter(player.Name)), TimeProvider.System.GetUtcNow(), zone);
            var report = MapReport.Of(player, listing.Takes, load, zone);
            Console.Out.Write(arguments.GetValue(json) ? TakesReportJson.Text(report) : TakesText.Map(report, player));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Note()
    {
        var where = new WhereOptions();
        Argument<string[]> tags = new("tag") { Description = "Where the body was noticed: jaw, tongue-root, throat, shoulders, breath, lips", Arity = ArgumentArity.OneOrMore };
        Option<string?> of = new("--take") { Description = "Id of the take it belongs to, or last", HelpName = "id" };
        Command command = new("note", "Note where the body was noticed") { tags, of };
        where.AddTo(command);
        command.SetAction(arguments =>
        {
            Player player = where.Player(arguments);
            TakeStore store = Store(where.Folder(arguments));
            List<BodyTag> noted = [];
            foreach (string word in arguments.GetValue(tags)!)
            {
                if (BodyTags.Parse(word) is not { } tag)
                {
                    return Failure.Say(ExitCode.BadCommandLine, $"\"{word}\" is no body tag; there are {string.Join(", ", BodyTags.All.Select(BodyTags.Name))}.");
                }

                noted.Add(tag);
            }

            string? take = null;
            if (arguments.GetValue(of) is { } id)
            {
                IReadOnlyList<LoggedTake> takes = store.List(new TakeFilter(player.Name)).Takes;
                LoggedTake? found = id == "last" && takes.Count > 0 ? takes[^1] : takes.FirstOrDefault(logged => logged.Take.Id == id);
                if (found is null)
                {
                    return Failure.Say(ExitCode.BadCommandLine, $"there is no take \"{id}\"; brassvox takes list names them.");
                }

                take = found.Take.Id;
            }

            DateTimeOffset now = TimeProvider.System.GetUtcNow();
            store.Log.Add([.. noted.Select(tag => new BodyNote(now, player.Name, tag, take))]);
            Console.Error.WriteLine($"brassvox: noted {string.Join(", ", noted.Select(BodyTags.Name))}{(take is null ? ", between takes: takes list shows it; --take last names the newest take" : $" of {take}")}");
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Copy()
    {
        var where = new WhereOptions();
        Argument<string> id = IdArgument();
        Argument<string> folder = new("folder") { Description = "Where to; made when missing" };
        Command command = new("copy", "Copy the sound and the record of a take to a folder") { id, folder };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments => WithTakes(Store(where.Folder(arguments)), [arguments.GetValue(id)!], (store, takes) =>
            store.Export(takes[0], arguments.GetValue(folder)!) is { } failure ? Failure.Say(ExitCode.CannotStore, failure) : ExitCode.Done));
        return command;
    }

    private static Command Delete()
    {
        var where = new WhereOptions();
        Argument<string[]> ids = new("id") { Description = "Ids of takes, or of body notes between takes", Arity = ArgumentArity.OneOrMore };
        Command command = new("delete", "Delete takes for good: sound, record and all that was found in them. What was sung stays counted, what was noted of the body stays until its own id is named.") { ids };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            TakeStore all = Store(where.Folder(arguments));
            string[] named = arguments.GetValue(ids)!;
            BodyNote[] notes = [.. all.NotesBetween(TakeFilter.All).Where(note => named.Contains(note.Id))];
            string[] others = [.. named.Except(notes.Select(note => note.Id))];
            return WithTakes(all, others, (store, takes) =>
            {
                if (((takes.Count > 0 ? store.Delete(takes) : null) ?? (notes.Length > 0 ? store.Delete(notes) : null)) is { } failure)
                {
                    return Failure.Say(ExitCode.CannotStore, failure);
                }

                string[] what = [.. new[] { Counted(takes.Count, "take"), Counted(notes.Length, "body note") }.Where(words => words.Length > 0)];
                Console.Error.WriteLine($"brassvox: {string.Join(" and ", what)} deleted for good");
                return ExitCode.Done;
            });
        });
        return command;
    }

    private static string Counted(int count, string what) => count switch { 0 => "", 1 => $"one {what}", _ => FormattableString.Invariant($"{count} {what}s") };

    private static Command Export()
    {
        var where = new WhereOptions();
        Argument<string> file = new("file") { Description = "A file that ends in .json or .csv" };
        Command command = new("export", "Write the whole log to a file, sounds left out; import reads it back without loss") { file };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            if (!LogFile.IsName(arguments.GetValue(file)!))
            {
                return Failure.Say(ExitCode.BadCommandLine, $"{arguments.GetValue(file)}: a log is .json or .csv; end its name so.");
            }

            TakeStore store = Store(where.Folder(arguments));
            Warn(store.List().Problems);
            LogContents contents = store.Log.Contents();
            LogFile.Write(contents, arguments.GetValue(file)!);
            Console.Error.WriteLine(FormattableString.Invariant(
                $"brassvox: {contents.Takes.Count} takes, {contents.BodyNotes.Count} body notes, {contents.Spells.Count} stretches of practice and {contents.Listening.Count} listening sets written to {arguments.GetValue(file)}"));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Import()
    {
        var where = new WhereOptions();
        Argument<string> file = new("file") { Description = "A file that takes export wrote" };
        Command command = new("import", "Take in what another log held; what is there already is not doubled") { file };
        where.AddTo(command, withPlayer: false);
        command.SetAction(arguments =>
        {
            string path = arguments.GetValue(file)!;
            if (!File.Exists(path))
            {
                return Failure.Say(ExitCode.UnusableInput, $"{path} does not exist.");
            }

            LogContents contents = LogFile.Read(path);
            int taken = Store(where.Folder(arguments)).Log.Import(contents);
            IReadOnlyList<string> kept = new PlayerFiles(where.Folder(arguments)).Names;
            foreach (string name in contents.Takes.Select(take => take.PlayerName).OfType<string>().Distinct(StringComparer.Ordinal).Except(kept))
            {
                Console.Error.WriteLine($"brassvox: {name} is no player here yet, so takes list does not show theirs; brassvox profile set \"{name}\" keeps one");
            }

            Console.Error.WriteLine(FormattableString.Invariant($"brassvox: {taken} of {contents.Takes.Count} takes were new; their sounds stay where they were made"));
            return ExitCode.Done;
        });
        return command;
    }

    private static Argument<string> IdArgument() => new("id") { Description = "Id of the take, as takes list prints it" };

    private static TakeStore Store(string folder) => new(folder, TimeProvider.System);

    private static void Warn(IReadOnlyList<string> problems)
    {
        foreach (string problem in problems)
        {
            Console.Error.WriteLine($"brassvox: {problem}");
        }
    }

    private static int WithTakes(TakeStore store, IReadOnlyList<string> ids, Func<TakeStore, IReadOnlyList<TakeRecord>, int> action)
    {
        TakeListing listing = store.List();
        Dictionary<string, TakeRecord> byId = listing.Takes.ToDictionary(take => take.Take.Id, take => take.Take, StringComparer.Ordinal);
        return ids.FirstOrDefault(id => !byId.ContainsKey(id)) is { } missing
            ? Failure.Say(ExitCode.BadCommandLine, $"there is no take \"{missing}\"; brassvox takes list names them.")
            : action(store, [.. ids.Distinct(StringComparer.Ordinal).Select(id => byId[id])]);
    }
}
