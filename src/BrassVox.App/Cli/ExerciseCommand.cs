using System.CommandLine;
using BrassVox.Audio;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Files;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Synthesis;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox exercise list | show ID | run ID</c>: exercises without a screen.</summary>
internal static class ExerciseCommand
{
    public static Command Build(IAudioSystem audio, Func<TonePresets> loadTones) => new("exercise", "List, show and run the exercises without a screen")
    {
        List(),
        Show(),
        Run(audio, loadTones),
        Schema(),
    };

    private static Command List()
    {
        Option<string?> data = DataOption();
        Option<bool> json = CommonOptions.Json();
        Command command = new("list", "List the exercises in the order of the curriculum") { data, json };
        command.SetAction(arguments =>
        {
            ExerciseLibrary library = Library(arguments.GetValue(data));
            Console.Out.Write(arguments.GetValue(json) ? ExerciseReportJson.Text(ExerciseReport.All(library)) : ExerciseText.List(library));
            return ExitCode.Done;
        });
        return command;
    }

    private static Command Show()
    {
        Argument<string> id = IdArgument();
        var player = new PlayerOptions();
        Option<string?> data = DataOption();
        Option<string?> who = WhereOptions.PlayerOption();
        Option<bool> json = CommonOptions.Json();
        Command command = new("show", "Show what an exercise asks of you, in your notes") { id, data, who, json };
        player.AddTo(command);
        command.SetAction(arguments => WithExercise(arguments.GetValue(id)!, Library(arguments.GetValue(data)), player.Read(arguments, Known(arguments.GetValue(data), arguments.GetValue(who))?.Profile), player.Choice(arguments), code => code, resolved =>
        {
            Console.Out.Write(arguments.GetValue(json) ? ExerciseReportJson.Text(ExerciseReport.Of(resolved)) : ExerciseText.Show(resolved));
            return ExitCode.Done;
        }));
        return command;
    }

    private static Command Run(IAudioSystem audio, Func<TonePresets> loadTones)
    {
        Argument<string> id = IdArgument();
        var player = new PlayerOptions();
        Option<string[]> input = new("--input")
        {
            Description = "A WAV file as the player, or several, each a take; without it the exercise runs with sound",
            HelpName = "file",
            AllowMultipleArgumentsPerToken = true,
        };
        Option<double?> start = new("--start")
        {
            Description = "Where in the file the take begins, in seconds (where its sound begins unless given)",
            HelpName = "seconds",
            CustomParser = result => CommonOptions.Seconds(result, "--start", 0, 86400),
        };
        Option<int> seed = CommonOptions.WholeOption("--seed", 0, int.MaxValue, 1, "Same number, same trials and drawn steps");
        Option<double> delay = CommonOptions.NumberOption("--delay", "ms", 0, 500, 0, "Round-trip delay of the sound devices as brassvox delay prints it; 0 takes the buffer that plays and a block of the one that records");
        Option<bool> keep = new("--keep") { Description = "Keep the take with the others, also when it comes from a file" };
        Option<string?> data = DataOption();
        Option<string?> who = WhereOptions.PlayerOption();
        Option<bool> json = CommonOptions.Json();
        var today = new TakeOptionWords();
        var devices = new DeviceOptions();
        Option<bool> threshold = new("--threshold") { Description = "Choose each listening trial by the answers before it, and end with a threshold" };
        Command command = new("run", "Run an exercise: judge a file, or play and record") { id, input, start, seed, delay, keep, threshold, data, who, json };
        player.AddTo(command);
        today.AddTo(command);
        devices.AddTo(command);
        command.SetAction((arguments, _) => WithExercise<Task<int>>(arguments.GetValue(id)!, Library(arguments.GetValue(data)), player.Read(arguments, Known(arguments.GetValue(data), arguments.GetValue(who))?.Profile), player.Choice(arguments), Task.FromResult, asWritten =>
        {
            ResolvedExercise resolved = asWritten.Exercise.IsListening ? asWritten : today.Read(arguments).Apply(asWritten);
            var store = new TakeStore(DataFolder.Find(arguments.GetValue(data)), TimeProvider.System, Known(arguments.GetValue(data), arguments.GetValue(who))?.Name);
            (Prediction? expected, string? problem) = today.Expected(arguments, resolved);
            if (problem is not null)
            {
                return Task.FromResult(Failure.Say(ExitCode.BadCommandLine, problem));
            }

            return (arguments.GetValue(input), resolved.Exercise.IsListening) switch
            {
                ({ Length: > 0 }, true) => Task.FromResult(Failure.Say(ExitCode.BadCommandLine, $"{resolved.Exercise.Id} is a listening exercise: there is no take to judge. Leave --input out.")),
                ({ Length: > 1 }, _) when arguments.GetValue(json) =>
                    Task.FromResult(Failure.Say(ExitCode.BadCommandLine, "--json prints one take; give one --input with it.")),
                ({ Length: > 0 } files, _) => Task.FromResult(files
                    .Select(file => ExerciseRun.File(resolved, file, arguments.GetValue(start), expected, arguments.GetValue(keep) ? store : null, arguments.GetValue(json)))
                    .FirstOrDefault(code => code != ExitCode.Done, ExitCode.Done)),
                (_, true) when arguments.GetValue(threshold) && ThresholdScale.Of(resolved.Exercise.Listening) is null =>
                    Task.FromResult(Failure.Say(ExitCode.BadCommandLine, $"{resolved.Exercise.Id} has no threshold to find. Leave --threshold out.")),
                (_, true) => new ExerciseLive(devices.On(audio, arguments), loadTones, store).ListenAsync(resolved, arguments.GetValue(seed), arguments.GetValue(json), arguments.GetValue(threshold)),
                _ => new ExerciseLive(devices.On(audio, arguments), loadTones, store).PlayAsync(resolved, today.Live(arguments, arguments.GetValue(delay)) with { Expected = expected }, arguments.GetValue(json)),
            };
        }, arguments.GetValue(seed)));
        return command;
    }

    private static Command Schema()
    {
        Command command = new("schema", "Print the JSON Schema of exercise files, for those who write their own");
        command.SetAction(_ =>
        {
            Console.Out.Write(ExerciseSchema.ToJson());
            return ExitCode.Done;
        });
        return command;
    }

    private static T WithExercise<T>(
        string id, ExerciseLibrary library, PlayerProfile profile, PairChoice? choice, Func<int, T> asResult, Func<ResolvedExercise, T> action, int seed = 1)
    {
        if (library.Find(id) is not { } exercise)
        {
            return asResult(Failure.Say(ExitCode.BadCommandLine, $"there is no exercise \"{id}\"; brassvox exercise list names them."));
        }

        Resolution resolution = ExerciseResolver.Resolve(exercise, profile, choice, seed);
        return resolution.Resolved is { } resolved ? action(resolved) : asResult(Failure.Say(ExitCode.BadCommandLine, resolution.WhyNot!));
    }

    private static ExerciseLibrary Library(string? data)
    {
        ExerciseLibrary library = ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, Path.Combine(DataFolder.Find(data), "exercises"));
        foreach (FileProblem problem in library.Problems)
        {
            Console.Error.WriteLine($"brassvox: {problem}");
        }

        return library;
    }

    /// <summary>The player who is named, or was chosen with profile use or in the screens; null when none was ever kept.</summary>
    private static Player? Known(string? data, string? name) => WhereOptions.Known(DataFolder.Find(data), name);

    private static Argument<string> IdArgument() => new("id") { Description = "Id or number of the exercise, as in open-home-pair or 14" };

    private static Option<string?> DataOption() => new("--data")
    {
        Description = $"Folder of takes and own exercises (unless given: {DataFolder.Variable}, else the system's place for user data)",
        HelpName = "folder",
    };
}
