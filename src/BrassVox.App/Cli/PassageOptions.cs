using System.CommandLine;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary>Which passage, which of its voices, whose octave: the options that all passage commands share.</summary>
internal sealed class PassageOptions
{
    private readonly Argument<string> _file = new("file")
    {
        Description = "A passage: our own text, MusicXML (.musicxml, .xml, .mxl), a MIDI file, or the name of a shipped one, as in two-breaths-one-pipe",
    };

    private readonly Option<int> _octave = new("--octave")
    {
        Description = "Octaves that the voice sings higher than written, -3 to 3",
        HelpName = "number",
        CustomParser = result =>
        {
            string text = result.Tokens[0].Value;
            if (!int.TryParse(text, System.Globalization.NumberStyles.AllowLeadingSign, System.Globalization.CultureInfo.InvariantCulture, out int octaves) || octaves is < -3 or > 3)
            {
                result.AddError($"--octave takes a whole number from -3 to 3, not \"{text}\".");
            }

            return octaves;
        },
    };

    private readonly Option<string?> _playedVoice = new("--played-voice") { Description = "Part of a score that is played, by (a part of) its name", HelpName = "name" };
    private readonly Option<string?> _sungVoice = new("--sung-voice") { Description = "Part of a score that is sung", HelpName = "name" };
    private readonly Option<string?> _data = new("--data") { Description = $"Folder of takes and own passages (unless given: {DataFolder.Variable}, else the system's place for user data)", HelpName = "folder" };

    private readonly Option<string?> _who = WhereOptions.PlayerOption();

    public PlayerOptions Player { get; } = new();

    public void AddTo(Command command)
    {
        command.Add(_file);
        foreach (Option option in new Option[] { _octave, _playedVoice, _sungVoice, _data, _who })
        {
            command.Add(option);
        }

        Player.AddTo(command, withNotes: false);
    }

    public string Data(ParseResult arguments) => DataFolder.Find(arguments.GetValue(_data));

    /// <summary>Who plays, as named or chosen in the data folder; null when nobody is kept.</summary>
    public Practice.Profiles.Player? Known(ParseResult arguments) => WhereOptions.Known(Data(arguments), arguments.GetValue(_who));

    /// <summary>Reads the passage and hands it on, or says in one line why there is none.</summary>
    public int With(ParseResult arguments, Func<Passage, PlayerProfile, int> action) => WithAsync(arguments, (passage, profile) => Task.FromResult(action(passage, profile))).GetAwaiter().GetResult();

    /// <summary>Reads the passage and hands it on, or says in one line why there is none.</summary>
    public async Task<int> WithAsync(ParseResult arguments, Func<Passage, PlayerProfile, Task<int>> action)
    {
        PlayerProfile profile = Player.Read(arguments, Known(arguments)?.Profile);
        string file = arguments.GetValue(_file)!;
        var voices = new VoiceNames(arguments.GetValue(_playedVoice), arguments.GetValue(_sungVoice));
        if (NamedPassage.Read(file, Data(arguments), profile, voices) is not { } load)
        {
            return Failure.Say(ExitCode.BadCommandLine, $"there is no passage \"{file}\"; give the name of a shipped one, as in two-breaths-one-pipe, of one of your own, or a file.");
        }

        if (load.Passage is not { } passage)
        {
            return Failure.Say(ExitCode.UnusableInput, load.Problem!.ToString());
        }

        foreach (string remark in passage.Remarks)
        {
            Console.Error.WriteLine($"brassvox: {remark}");
        }

        int octave = arguments.GetValue(_octave);
        if (passage.Sung.Any(note => note.Note.Octave + octave is < -1 or > 9))
        {
            return Failure.Say(ExitCode.BadCommandLine, $"--octave {octave} moves sung notes beyond octaves -1 to 9.");
        }

        return await action(passage.WithSungOctaves(octave), profile);
    }
}
