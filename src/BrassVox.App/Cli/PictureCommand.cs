using System.CommandLine;
using BrassVox.Analysis;
using BrassVox.Publishing.Pictures;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox picture</c>: a pair or a take as a PNG or SVG file.</summary>
internal static class PictureCommand
{
    private const double ToleranceCents = 15;
    private const int HarmonicsCompared = 16;
    private static readonly RenderFormat Probe = new(48000, 1024);

    public static Command Build(Func<TonePresets> loadTones) => new("picture", "Draw a pair or a take as a .png or .svg file")
    {
        Interval(), Beats(loadTones), Take(), Spectrum(),
    };

    private static Command Interval()
    {
        Shared shared = new();
        Option<int> order = CommonOptions.WholeOption("--order", 2, 4, 3, "Highest |m|+|n| drawn");
        Command command = shared.On(new Command("interval", "What a pair makes while the sung tone moves past the played one") { shared.PlayedNote, shared.SungNote, order });
        command.SetAction(arguments =>
        {
            (double playedHz, double sungHz, double a4Hz) = shared.Pair(arguments);
            return shared.Save(arguments, ResultantChart.Of(playedHz, sungHz, arguments.GetValue(order), a4Hz));
        });
        return command;
    }

    private static Command Beats(Func<TonePresets> loadTones)
    {
        Shared shared = new();
        Option<string> instrument = new("--instrument") { DefaultValueFactory = _ => "tuba", Description = "Whose harmonics P has", HelpName = "name" };
        Option<string> voice = new("--voice") { DefaultValueFactory = _ => "bass", Description = "Whose harmonics S has", HelpName = "name" };
        Command command = shared.On(new Command("beats", "Where a pair stands still, beats and is rough") { shared.PlayedNote, shared.SungNote, instrument, voice });
        command.SetAction(arguments =>
        {
            TonePresets tones = loadTones();
            if (tones.Brass.FirstOrDefault(preset => Is(preset.Id, arguments.GetValue(instrument))) is not { } brass)
            {
                return Failure.Say(ExitCode.BadCommandLine, $"--instrument: there is no \"{arguments.GetValue(instrument)}\"; there are {string.Join(", ", tones.Brass.Select(preset => preset.Id))}.");
            }

            if (tones.Voices.FirstOrDefault(preset => Is(preset.Id, arguments.GetValue(voice))) is not { } singer)
            {
                return Failure.Say(ExitCode.BadCommandLine, $"--voice: there is no \"{arguments.GetValue(voice)}\"; there are {string.Join(", ", tones.Voices.Select(preset => preset.Id))}.");
            }

            (double playedHz, double sungHz, double a4Hz) = shared.Pair(arguments);
            FlowPair pair = Sounding(new FlowPair(brass, singer, 1), playedHz, sungHz);
            return shared.Save(arguments, BeatChart.Of(playedHz, sungHz, Amplitudes(pair, VoiceRole.Played), Amplitudes(pair, VoiceRole.Sung), a4Hz));
        });
        return command;
    }

    private static Command Take()
    {
        Shared shared = new();
        Command command = shared.On(new Command("take", "Both tones of a recording about their notes, and their beats") { shared.File, shared.MeasuredPlayed, shared.MeasuredSung });
        command.SetAction(arguments => shared.Read(arguments, (path, mono, rate) =>
        {
            (double? playedHz, double? sungHz, double a4Hz) = shared.Notes(arguments, shared.MeasuredPlayed, shared.MeasuredSung);
            IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(mono, rate, DuetPrior.Free with { PlayedHz = playedHz, SungHz = sungHz });
            if (frames.Count == 0)
            {
                return Failure.Say(ExitCode.UnusableInput, FormattableString.Invariant($"{path} is shorter than one measurement, {DuetTracker.WindowSeconds:F2} s. Record longer."));
            }

            int code = shared.Save(arguments, TakeChart.Of(
                Path.GetFileName(path), frames, playedHz is null ? null : _ => playedHz, sungHz is null ? null : _ => sungHz, ToleranceCents, a4Hz));
            if (code == ExitCode.Done && !frames.Any(frame => frame.Played is not null || frame.Sung is not null))
            {
                Console.Error.WriteLine($"brassvox: no pitch is told in {path}; the picture says so{(TakeChart.AreRolesOpen(frames) ? ". Two tones stand apart: name one with --played" : "")}.");
            }

            return code;
        }));
        return command;
    }

    private static Command Spectrum()
    {
        Shared shared = new();
        Option<int> order = CommonOptions.WholeOption("--order", 2, 4, 3, "Highest |m|+|n| drawn, harmonics apart");
        Option<double> highest = CommonOptions.NumberOption("--highest", "Hz", 50, 20000, 600, "Top of the picture");
        Command command = shared.On(new Command("spectrum", "The spectrogram of a recording, with the predicted lines over it when both notes are given")
        {
            shared.File, shared.Played, shared.Sung, order, highest,
        });
        command.SetAction(arguments => shared.Read(arguments, (path, mono, rate) =>
        {
            (double? playedHz, double? sungHz, double _) = shared.Notes(arguments, shared.Played, shared.Sung);
            if (mono.Length < SpectrumChart.LeastSeconds * rate)
            {
                return Failure.Say(ExitCode.UnusableInput, FormattableString.Invariant($"{path} is shorter than {SpectrumChart.LeastSeconds:F1} s. Record longer."));
            }

            return shared.Save(arguments, SpectrumChart.Of(Path.GetFileName(path), mono, rate, playedHz, sungHz, arguments.GetValue(order), arguments.GetValue(highest)));
        }));
        return command;
    }

    private static FlowPair Sounding(FlowPair pair, double playedHz, double sungHz)
    {
        pair.Prepare(Probe);
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(playedHz)));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(sungHz)));
        pair.TryPost(PairEvent.Start());
        float[] block = new float[Probe.MaxBlockSamples];
        while (pair.SamplesRendered < Probe.SampleRateHz)
        {
            pair.Render(block);
        }

        return pair;
    }

    private static double[] Amplitudes(FlowPair pair, VoiceRole role) =>
        [.. Enumerable.Range(1, HarmonicsCompared).Select(harmonic => Math.Pow(10, pair.PartialLevelDbfs(role, harmonic) / 20))];

    private static bool Is(string name, string? asked) => string.Equals(name, asked, StringComparison.OrdinalIgnoreCase);

    /// <summary>What every picture asks for.</summary>
    private sealed class Shared
    {
        private const string PlayedDescription = "The played note, if known, as in Bb2";
        private const string SungDescription = "The sung note, if known, as in F3";

        private readonly Option<string> _output = new Option<string>("--output", "-o") { Required = true, Description = "Where the picture goes; a name ending in .png or .svg", HelpName = "file" }.EndingIn("a picture", ".png", ".svg");
        private readonly Option<int> _width = CommonOptions.WholeOption("--width", 300, 8000, Picture.UsualWidth, "Width in pixels");
        private readonly Option<int> _height = CommonOptions.WholeOption("--height", 200, 8000, Picture.UsualHeight, "Height in pixels");
        private readonly Option<double> _a4 = CommonOptions.A4();
        private readonly Option<string> _tuning = CommonOptions.TuningName();
        private readonly Option<Pitch?> _root = CommonOptions.Root();

        public Argument<Pitch> PlayedNote { get; } = CommonOptions.NoteArgument("played", "The played note, as in Bb1");

        public Argument<Pitch> SungNote { get; } = CommonOptions.NoteArgument("sung", "The sung note, as in F2");

        public Argument<string> File { get; } = new("take") { Description = "The WAV file" };

        public Option<Pitch?> Played { get; } = CommonOptions.NoteOption("--played", PlayedDescription);

        public Option<Pitch?> Sung { get; } = CommonOptions.NoteOption("--sung", SungDescription);

        public Option<Pitch?> MeasuredPlayed { get; } = CommonOptions.MeasuredNoteOption("--played", PlayedDescription);

        public Option<Pitch?> MeasuredSung { get; } = CommonOptions.MeasuredNoteOption("--sung", SungDescription);

        public Command On(Command command)
        {
            foreach (Option option in new Option[] { _output, _width, _height, _a4, _tuning, _root })
            {
                command.Add(option);
            }

            return command;
        }

        public (double PlayedHz, double SungHz, double A4Hz) Pair(ParseResult arguments)
        {
            Pitch played = arguments.GetValue(PlayedNote);
            double a4Hz = arguments.GetValue(_a4);
            Tuning.TryParse(arguments.GetValue(_tuning)!, arguments.GetValue(_root) ?? played, out Tuning? tuning);
            return (tuning!.FrequencyHz(played, a4Hz), tuning.FrequencyHz(arguments.GetValue(SungNote), a4Hz), a4Hz);
        }

        public (double? PlayedHz, double? SungHz, double A4Hz) Notes(ParseResult arguments, Option<Pitch?> playedNote, Option<Pitch?> sungNote)
        {
            Pitch? played = arguments.GetValue(playedNote);
            double a4Hz = arguments.GetValue(_a4);
            Tuning.TryParse(arguments.GetValue(_tuning)!, arguments.GetValue(_root) ?? played ?? new Pitch(NoteLetter.C, 0, 4), out Tuning? tuning);
            return (
                played is { } p ? tuning!.FrequencyHz(p, a4Hz) : null,
                arguments.GetValue(sungNote) is { } s ? tuning!.FrequencyHz(s, a4Hz) : null,
                a4Hz);
        }

        public int Read(ParseResult arguments, Func<string, float[], int, int> draw)
        {
            string path = arguments.GetValue(File)!;
            return WavInput.Read(path) is { } sound ? draw(path, sound.Mono(), sound.SampleRateHz) : ExitCode.UnusableInput;
        }

        public int Save(ParseResult arguments, Picture picture)
        {
            PictureWritten written = picture.Save(arguments.GetValue(_output)!, arguments.GetValue(_width), arguments.GetValue(_height));
            if (written.Failure is { } failure)
            {
                return Failure.Say(ExitCode.CannotStore, failure);
            }

            Console.Out.WriteLine(written.Path);
            return ExitCode.Done;
        }
    }
}
