using System.CommandLine;
using System.Globalization;
using BrassVox.Audio;
using BrassVox.Audio.Wav;
using BrassVox.Practice.Section;
using BrassVox.Publishing;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox section NOTE NOTE ...</c>: two to five players' tones together.</summary>
internal static class SectionCommand
{
    private const double HoldSeconds = 4;

    public static Command Build(IAudioSystem audio, Func<TonePresets> loadTones)
    {
        Argument<string[]> notes = new("notes")
        {
            Description = "Two to five notes, each a player's, with cents where it is off: Bb2 F3+6 D4-14",
            Arity = ArgumentArity.ZeroOrMore,
        };
        Option<double> a4 = CommonOptions.A4();
        Option<string> tuning = CommonOptions.TuningName();
        Option<Pitch?> root = CommonOptions.NoteOption("--root", "Note that keeps its equal-tempered place (the first note unless given)");
        Option<bool> json = CommonOptions.Json();
        Option<string?> output = new Option<string?>("--output", "-o") { Description = "A .wav file: as entered, then sliding to where it stands still", HelpName = "file" }.EndingIn("a sound", NameEnding.Sound);
        Option<bool> listen = new("--listen") { Description = "Sound it: as entered, then sliding to where it stands still" };
        Option<int> train = CommonOptions.WholeOption("--train", 0, 50, 0, "Listening trials: one player is off; which one?");
        Option<double> off = CommonOptions.NumberOption("--off", "c", 1, 100, 20, "How far that player is off");
        Option<int> seed = CommonOptions.WholeOption("--seed", 0, int.MaxValue, 1, "Same number, same trials");
        var devices = new DeviceOptions();
        Command command = new("section", "Two to five players' tones: what they make, what beats, who moves to still it") { notes };
        foreach (Option option in new Option[] { a4, tuning, root, json, output, listen, train, off, seed })
        {
            command.Add(option);
        }

        devices.AddTo(command, withInput: false);
        command.SetAction(async (arguments, _) =>
        {
            string[] given = arguments.GetValue(notes)!;
            if (given.Length is < SectionReport.Fewest or > SectionReport.Most)
            {
                return Failure.Say(ExitCode.BadCommandLine, $"a section has {SectionReport.Fewest} to {SectionReport.Most} players, each with a note, as in Bb2 F3+6 D4-14; {given.Length} were given.");
            }

            List<(Pitch Note, double Cents)> tones = [];
            foreach (string text in given)
            {
                if (Read(text) is not { } tone)
                {
                    return Failure.Say(ExitCode.BadCommandLine, $"\"{text}\" is not a note with cents: write Bb2, F3+6 or D4-14, up to 100 cents.");
                }

                tones.Add(tone);
            }

            Tuning.TryParse(arguments.GetValue(tuning)!, arguments.GetValue(root) ?? tones[0].Note, out Tuning? system);
            double a4Hz = arguments.GetValue(a4);
            SectionReport report = SectionReport.Of(tones, system!, a4Hz);
            Console.Out.Write(arguments.GetValue(json) ? SectionWords.Json(report, a4Hz) : SectionWords.Show(report, a4Hz));
            if (arguments.GetValue(output) is { } file && Write(report, file, loadTones()) is not ExitCode.Done and int code)
            {
                return code;
            }

            int trials = arguments.GetValue(train);
            return trials > 0
                ? await new SectionLive(devices.On(audio, arguments), loadTones()).TrainAsync(SectionTrial.Build(report, trials, arguments.GetValue(off), arguments.GetValue(seed)))
                : arguments.GetValue(listen) ? await new SectionLive(devices.On(audio, arguments), loadTones()).ListenAsync(report, HoldSeconds) : ExitCode.Done;
        });
        return command;
    }

    private static int Write(SectionReport report, string file, TonePresets tones)
    {
        var sound = new SectionSound(tones, report, HoldSeconds, slides: true);
        TracksWritten written = SoundTrack.Write(sound, sound.Seconds, file, new WavWriteOptions(48000, 1, WavEncoding.Pcm24));
        foreach (WavWritten track in written.Files)
        {
            Console.Error.WriteLine(FormattableString.Invariant($"{track.Path}  {track.Seconds:F3} s, {track.SampleRateHz} Hz"));
        }

        return written.Failure is { } failure ? Failure.Say(ExitCode.CannotStore, failure.Message) : ExitCode.Done;
    }

    /// <summary>A note with cents beside it, as in F3+6; null when it is none.</summary>
    public static (Pitch Note, double Cents)? Read(string text)
    {
        int sign = text.LastIndexOfAny(['+', '-']);
        bool hasCents = sign > 1 && char.IsAsciiDigit(text[sign - 1]);
        string name = hasCents ? text[..sign] : text;
        double cents = 0;
        bool isGood = Pitch.TryParse(name, out Pitch note)
            && (!hasCents || double.TryParse(text[sign..], NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out cents));
        return isGood && Math.Abs(cents) <= 100 && note.Octave is >= 0 and <= 6 ? (note, cents) : null;
    }
}
