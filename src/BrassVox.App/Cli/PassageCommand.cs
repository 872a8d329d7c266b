using System.CommandLine;
using BrassVox.Analysis;
using BrassVox.Audio;
using BrassVox.Audio.Wav;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Publishing;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox passage show | text | run | render FILE</c>: passages without a screen.</summary>
internal static class PassageCommand
{
    private const double LeadSeconds = 0.1;
    private const double TailSeconds = 0.3;

    public static Command Build(IAudioSystem audio, Func<TonePresets> loadTones) => new("passage", "Check, practise and render a passage of two voices")
    {
        Show(),
        Text(),
        Run(audio, loadTones),
        Render(loadTones),
    };

    private static Command Show()
    {
        var which = new PassageOptions();
        Option<double> speaker = CommonOptions.NumberOption("--speaker", "Hz", 0, 500, 0, "Lowest frequency that your speaker or room carries");
        Option<Pitch?> register = CommonOptions.NoteOption("--register", "Where your voice changes register (C4 for low voices, E4 for high ones, unless given)");
        Option<bool> json = CommonOptions.Json();
        Command command = new("show", "Show a passage moment by moment: what it makes, and what asks for care");
        which.AddTo(command);
        command.Add(speaker);
        command.Add(register);
        command.Add(json);
        command.SetAction(arguments => which.With(arguments, (passage, profile) =>
        {
            PassageReport report = PassageReport.Of(passage, profile, arguments.GetValue(speaker), arguments.GetValue(register));
            Console.Out.Write(arguments.GetValue(json) ? PassageShown.Json(passage, report) : PassageWords.Show(passage, profile, report));
            return ExitCode.Done;
        }));
        return command;
    }

    private static Command Text()
    {
        var which = new PassageOptions();
        Command command = new("text", "Print a passage as our own plain text, to be edited");
        which.AddTo(command);
        command.SetAction(arguments => which.With(arguments, (passage, _) =>
        {
            Console.Out.Write(PassageText.Write(passage));
            return ExitCode.Done;
        }));
        return command;
    }

    private static Command Run(IAudioSystem audio, Func<TonePresets> loadTones)
    {
        var which = new PassageOptions();
        var bars = new BarOptions();
        var today = new TakeOptionWords();
        var devices = new DeviceOptions();
        Option<HelpStep> help = PlayerOptions.Words("--help-left", HelpStep.BothTones, "How much help sounds");
        Option<string?> input = new("--input") { Description = "A WAV file as the player; without it the passage runs with sound", HelpName = "file" };
        Option<double?> start = new("--start")
        {
            Description = "Where in the file the take begins, in seconds (where its sound begins unless given)",
            HelpName = "seconds",
            CustomParser = result => CommonOptions.Seconds(result, "--start", 0, 86400),
        };
        Option<double> delay = CommonOptions.NumberOption("--delay", "ms", 0, 500, 0, "Round-trip delay of the sound devices as brassvox delay prints it");
        Option<bool> keep = new("--keep") { Description = "Keep the take with the others, also when it comes from a file" };
        Option<bool> json = CommonOptions.Json();
        Command command = new("run", "Play and sing a passage, or judge a file, note by note");
        which.AddTo(command);
        bars.AddTo(command);
        today.AddTo(command, withDrone: false);
        devices.AddTo(command);
        foreach (Option option in new Option[] { help, input, start, delay, keep, json })
        {
            command.Add(option);
        }

        command.SetAction((arguments, _) => which.WithAsync(arguments, (passage, profile) =>
        {
            if (bars.Fault(arguments, passage) is { } fault)
            {
                return Task.FromResult(Failure.Say(ExitCode.BadCommandLine, fault));
            }

            if (passage.Played.Concat(passage.Sung).FirstOrDefault(note => !MeasuredNotes.Holds(note.Note)) is { } far)
            {
                return Task.FromResult(Failure.Say(
                    ExitCode.UnusableInput,
                    $"{far.Note} at {passage.PlaceOf(far.StartTick)} cannot be judged: tones are measured from {MeasuredNotes.Lowest} to {MeasuredNotes.Highest}. passage render writes its sound."));
            }

            ResolvedExercise turn = PassageExercise.Resolve(passage, profile, bars.Turn(arguments, arguments.GetValue(help)), today.Read(arguments));
            var store = new TakeStore(which.Data(arguments), TimeProvider.System, which.Known(arguments)?.Name);
            ClickUse click = arguments.GetValue(help) <= HelpStep.Click ? ClickUse.Throughout : ClickUse.CountIn;
            return arguments.GetValue(input) is { } file
                ? Task.FromResult(ExerciseRun.File(turn, file, arguments.GetValue(start), null, arguments.GetValue(keep) ? store : null, arguments.GetValue(json)))
                : new ExerciseLive(devices.On(audio, arguments), loadTones, store).PlayAsync(
                    turn, today.Live(arguments, arguments.GetValue(delay), click), arguments.GetValue(json));
        }));
        return command;
    }

    private static Command Render(Func<TonePresets> loadTones)
    {
        var which = new PassageOptions();
        var bars = new BarOptions();
        Option<double> tempo = CommonOptions.NumberOption("--tempo", "%", TakeOptions.SlowestPercent, TakeOptions.FastestPercent, 100, "Tempo in per cent of the written one");
        Option<double> coupling = CommonOptions.NumberOption("--coupling", string.Empty, 0, 1, 0.6, "0: separate; up to 1: the voice opens and shuts the flow through the lips");
        Option<bool> stems = new("--stems") { Description = "Write played, sung and resultants apart as well" };
        Option<string> output = new Option<string>("--output", "-o") { Description = "The .wav file to write", Required = true, HelpName = "file" }.EndingIn("a sound", NameEnding.Sound);
        Command command = new("render", "Write the sound of a passage to a WAV file");
        which.AddTo(command);
        bars.AddTo(command);
        foreach (Option option in new Option[] { tempo, coupling, stems, output })
        {
            command.Add(option);
        }

        command.SetAction(arguments => which.With(arguments, (passage, profile) =>
        {
            if (bars.Fault(arguments, passage) is { } fault)
            {
                return Failure.Say(ExitCode.BadCommandLine, fault);
            }

            ResolvedExercise turn = PassageExercise.Resolve(
                passage, profile, bars.Turn(arguments, HelpStep.BothTones), new TakeOptions(TempoPercent: arguments.GetValue(tempo)));
            IPairEngine engine = PlayerTones.Engine(loadTones(), profile);
            var options = new WavWriteOptions(48000, 1, WavEncoding.Pcm24);
            IReadOnlyList<PairEvent> score = PairScript.Model(turn, engine.Parts, 48000, (long)(LeadSeconds * 48000), arguments.GetValue(coupling));
            TracksWritten tracks = PairTracks.Write(engine, score, LeadSeconds + turn.TakeSeconds + TailSeconds, arguments.GetValue(output)!, options, arguments.GetValue(stems));
            foreach (WavWritten file in tracks.Files)
            {
                Console.Out.Write(FormattableString.Invariant($"{file.Path}  {file.Seconds:F3} s, {file.SampleRateHz} Hz\n"));
            }

            return tracks.Failure is { } failure ? Failure.Say(ExitCode.CannotStore, failure.Message) : ExitCode.Done;
        }));
        return command;
    }
}
