using System.CommandLine;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Files;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Notation;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox notation WHAT --output FILE</c>: an exercise or a passage as MusicXML (plain or compressed), MIDI or an engraved picture.</summary>
internal static class NotationCommand
{
    public static Command Build()
    {
        Argument<string> what = new("what") { Description = "An exercise by id or number, as in open-home-pair; or a passage by file or name, as in two-breaths-one-pipe" };
        Option<string> output = new("--output", "-o") { Required = true, Description = "Where it goes; a name ending in .musicxml, .mxl, .mid or .svg (.svg needs LilyPond)", HelpName = "file" };
        Option<bool> concert = new("--concert") { Description = "In concert pitch, whatever the player reads" };
        Option<bool> treble = new("--treble") { Description = "In the instrument's transposed treble clef, whatever the player reads" };
        Option<bool> resultants = new("--resultants") { Description = "Add a staff of the difference tones, with their cents" };
        var where = new WhereOptions();
        var player = new PlayerOptions();
        Command command = new("notation", "Write an exercise or passage as .musicxml, .mxl, .mid or .svg, played and sung notes apart") { what, output, concert, treble, resultants };
        where.AddTo(command);
        player.AddTo(command);
        command.Validators.Add(result =>
        {
            if (result.GetResult(concert) is not null && result.GetResult(treble) is not null)
            {
                result.AddError("--concert and --treble exclude each other.");
            }
        });
        command.SetAction(arguments =>
        {
            string folder = where.Folder(arguments);
            Player known = where.Player(arguments);
            PlayerProfile profile = player.Read(arguments, known.Profile);
            bool isTransposed = arguments.GetValue(treble) || known.With(profile).ReadsTransposed;
            WrittenPart part = arguments.GetValue(concert)
                ? WrittenPart.InConcertPitch(profile.Instrument)
                : WrittenPart.Of(profile.Instrument, isTransposed);
            try
            {
                (Score? score, int code) = ScoreOf(arguments.GetValue(what)!, folder, profile, player.Choice(arguments), part, arguments.GetValue(resultants));
                return score is null ? code : Save(score, arguments.GetValue(output)!);
            }
            catch (ArgumentException error)
            {
                return Failure.Say(ExitCode.BadCommandLine, $"{arguments.GetValue(what)}: {error.Message.Split(" (Parameter")[0]}");
            }
        });
        return command;
    }

    private static (Score? Score, int Code) ScoreOf(string what, string folder, PlayerProfile profile, PairChoice? choice, WrittenPart part, bool withResultants)
    {
        ExerciseLibrary library = ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder, Path.Combine(folder, "exercises"));
        if (!File.Exists(what) && library.Find(what) is { } exercise)
        {
            Resolution resolution = ExerciseResolver.Resolve(exercise, profile, choice);
            return resolution.Resolved is { } resolved
                ? (Score.Of(resolved, part, withResultants), ExitCode.Done)
                : (null, Failure.Say(ExitCode.BadCommandLine, resolution.WhyNot!));
        }

        if (NamedPassage.Read(what, folder, profile) is not { } load)
        {
            return (null, Failure.Say(ExitCode.BadCommandLine, $"there is no exercise and no passage \"{what}\"; brassvox exercise list names the exercises."));
        }

        if (load.Passage is not { } passage)
        {
            return (null, Failure.Say(ExitCode.UnusableInput, load.Problem!.ToString()));
        }

        foreach (string remark in passage.Remarks)
        {
            Console.Error.WriteLine($"brassvox: {remark}");
        }

        return (Score.Of(passage, profile, part, withResultants), ExitCode.Done);
    }

    private static int Save(Score score, string path)
    {
        byte[] bytes;
        switch (Path.GetExtension(path).ToLowerInvariant())
        {
            case ".musicxml" or ".xml":
                bytes = MusicXml.Write(score);
                break;
            case ".mxl":
                bytes = CompressedScore.Write(score);
                break;
            case ".mid" or ".midi":
                bytes = MidiScore.Write(score);
                break;
            case ".svg":
                Engraving engraving = new Engraver().Engrave(score);
                if (engraving.Svg is null)
                {
                    return Failure.Say(ExitCode.CannotStore, engraving.WhyNot!);
                }

                bytes = System.Text.Encoding.UTF8.GetBytes(engraving.Svg);
                break;
            default:
                return Failure.Say(ExitCode.BadCommandLine, $"--output takes a name ending in .musicxml, .mxl (the same, compressed), .mid or .svg, not \"{path}\".");
        }

        foreach (string remark in score.Remarks)
        {
            Console.Error.WriteLine($"brassvox: {remark}");
        }

        try
        {
            WholeFile.Write(path, file => file.Write(bytes));
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return Failure.Say(ExitCode.CannotStore, $"{path} cannot be written: {error.Message}");
        }

        Console.Out.WriteLine(path);
        return ExitCode.Done;
    }
}
