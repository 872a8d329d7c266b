using System.CommandLine;
using System.Globalization;
using BrassVox.Analysis;
using BrassVox.Audio;
using BrassVox.Practice.Files;
using BrassVox.Practice.Sessions;
using BrassVox.Publishing;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox measure take.wav</c>: both pitches of a recording, window by window.</summary>
internal static class MeasureCommand
{
    private static readonly double Tritone = Math.Sqrt(2.0);

    public static Command Build()
    {
        Argument<string> file = new("take") { Description = "The WAV file to measure" };
        Option<Pitch?> played = CommonOptions.MeasuredNoteOption("--played", "The played note, if known, as in Bb2");
        Option<Pitch?> sung = CommonOptions.MeasuredNoteOption("--sung", "The sung note, if known, as in F3");
        Option<string?> moves = new("--moves") { DefaultValueFactory = _ => "none", Description = "The tone that leaves its note, by up to a tritone where it is named: played, sung, both or none", HelpName = "tone" };
        moves.AcceptOnlyFromAmong("played", "sung", "both", "none");
        Option<int> channel = CommonOptions.WholeOption("--channel", 0, 32, 0, "Channel to measure, from 1; 0 mixes them all");
        Option<string?> csv = new("--csv") { Description = "Write every frame to this file as comma-separated values", HelpName = "file" };
        Option<string?> drone = new("--drone") { Description = "WAV file of what a loudspeaker played meanwhile, from the same instant: said if it bleeds into the take, and taken out", HelpName = "file" };
        Option<bool> sensation = new("--sensation") { Description = "Add roughness in asper, fluctuation strength in vacil, loudness and true peak (slow)" };
        Option<double> fullScale = CommonOptions.NumberOption("--full-scale", "dB SPL", 40, 160, 100, "Sound pressure level that a full-scale sine stands for, for --sensation");
        Option<double> a4 = CommonOptions.A4();
        Option<string> tuningName = CommonOptions.TuningName();
        Option<Pitch?> root = CommonOptions.Root();
        Option<bool> json = CommonOptions.Json();
        Command command = new("measure", "Measure the played and the sung pitch of a recording; without the notes it searches freely")
        {
            file, played, sung, moves, channel, csv, drone, sensation, fullScale, a4, tuningName, root, json,
        };
        command.SetAction(arguments =>
        {
            Pitch? playedNote = arguments.GetValue(played);
            Pitch? sungNote = arguments.GetValue(sung);
            double a4Hz = arguments.GetValue(a4);
            Pitch rootNote = arguments.GetValue(root) ?? playedNote ?? new Pitch(NoteLetter.C, 0, 4);
            Tuning.TryParse(arguments.GetValue(tuningName)!, rootNote, out Tuning? tuning);
            string moving = arguments.GetValue(moves) ?? "none";
            DuetPrior prior = Prior(
                playedNote is { } p ? tuning!.FrequencyHz(p, a4Hz) : null,
                sungNote is { } s ? tuning!.FrequencyHz(s, a4Hz) : null,
                moving is "played" or "both",
                moving is "sung" or "both");
            Extras extras = new(arguments.GetValue(drone), arguments.GetValue(sensation) ? arguments.GetValue(fullScale) : null);
            return Run(arguments.GetValue(file)!, prior, arguments.GetValue(channel), arguments.GetValue(csv), extras, a4Hz, arguments.GetValue(json));
        });
        return command;
    }

    // A named note that moves is looked for within a tritone to either side: so its octave can never be taken for it.
    private static DuetPrior Prior(double? playedHz, double? sungHz, bool playedMoves, bool sungMoves)
    {
        DuetPrior prior = DuetPrior.Free with { PlayedHz = playedHz, SungHz = sungHz, PlayedMoves = playedMoves, SungMoves = sungMoves };
        if (playedMoves && playedHz is { } played)
        {
            prior = prior with { PlayedLowestHz = played / Tritone, PlayedHighestHz = played * Tritone };
        }

        return sungMoves && sungHz is { } sung
            ? prior with { SungLowestHz = sung / Tritone, SungHighestHz = sung * Tritone }
            : prior;
    }

    private static int Run(string path, DuetPrior prior, int channel, string? csv, Extras extras, double a4Hz, bool asJson)
    {
        if (csv is not null && new[] { path, extras.DroneFile }.FirstOrDefault(input => IsSame(input, csv)) is { } read)
        {
            return Failure.Say(ExitCode.CannotStore, $"--csv {csv} would write over {read}, which is read. Name another file with --csv.");
        }

        if (WavInput.Read(path) is not { } sound)
        {
            return ExitCode.UnusableInput;
        }

        if (channel > sound.Channels.Count)
        {
            return Failure.Say(ExitCode.BadCommandLine, $"{path} has {sound.Channels.Count} {(sound.Channels.Count == 1 ? "channel" : "channels")}; --channel {channel} is not there.");
        }

        float[] mono = sound.Mono(channel);
        DroneReport? drone = null;
        if (extras.DroneFile is { } droneFile)
        {
            if (WavInput.Read(droneFile) is not { } other)
            {
                return ExitCode.UnusableInput;
            }

            if (other.SampleRateHz != sound.SampleRateHz)
            {
                return Failure.Say(ExitCode.UnusableInput, $"{droneFile} has {other.SampleRateHz} Hz and {path} {sound.SampleRateHz} Hz; both need one rate.");
            }

            (DroneInTake found, mono) = DroneInTake.TakeOut(other.Mono(0), mono, sound.SampleRateHz);
            drone = DroneReport.Of(droneFile, found);
        }

        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(mono, sound.SampleRateHz, prior);
        if (frames.Count == 0)
        {
            return Failure.Say(ExitCode.UnusableInput, string.Create(
                CultureInfo.InvariantCulture,
                $"{path} lasts {sound.Seconds:F2} s; one measurement takes {DuetTracker.WindowSeconds:F2} s of sound. Record longer."));
        }

        if (csv is not null)
        {
            try
            {
                WriteTable(csv, frames);
            }
            catch (Exception error) when (error is IOException or UnauthorizedAccessException)
            {
                return Failure.Say(ExitCode.CannotStore, $"{csv} cannot be written: {error.Message.TrimEnd('.')}. Name another file with --csv.");
            }
        }

        // A search with one note left open always finds something: it stands where one with none named finds the same, or nothing.
        OtherNoteHeard? otherNote = OtherNoteHeard.Of(mono, sound.SampleRateHz, prior, frames, a4Hz);
        OtherPairHeard? otherPair = OtherPairHeard.Of(mono, sound.SampleRateHz, prior, frames, a4Hz);
        bool isNote = otherNote is not null && otherPair?.BearsOut(otherNote, prior) != false;
        MeasureReport report = MeasureReport.Of(path, sound, mono, prior, frames, a4Hz) with
        {
            Drone = drone,
            OtherNote = isNote ? otherNote : null,
            OtherPair = isNote ? null : otherPair,
            Sensation = extras.FullScaleDbSpl is { } level ? SensationReport.Of(mono, sound.SampleRateHz, level) : null,
        };
        Console.Out.Write(asJson ? CliJson.Text(report) : report.ToText());
        return ExitCode.Done;
    }

    // A pipe or device, as /dev/stdout, takes the table as it comes; a file is whole or not there.
    private static void WriteTable(string csv, IReadOnlyList<AnalysisFrame> frames)
    {
        if (File.Exists(csv) && !PlainFile.Is(csv))
        {
            using StreamWriter output = new(csv);
            FrameTable.Write(output, frames);
            return;
        }

        WholeFile.Write(csv, file =>
        {
            using StreamWriter output = new(file, leaveOpen: true);
            FrameTable.Write(output, frames);
        });
    }

    private static bool IsSame(string? input, string output) =>
        input is not null && File.Exists(output) && string.Equals(RealPath(input), RealPath(output), PathComparison);

    private static StringComparison PathComparison => OperatingSystem.IsLinux() ? StringComparison.Ordinal : StringComparison.OrdinalIgnoreCase;

    private static string RealPath(string path) =>
        File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? Path.GetFullPath(path);

    /// <summary>What is asked beyond the pitches.</summary>
    private sealed record Extras(string? DroneFile, double? FullScaleDbSpl);
}
