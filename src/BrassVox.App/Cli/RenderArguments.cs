using System.CommandLine;
using BrassVox.Audio.Wav;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>The arguments and options of <c>render</c>.</summary>
internal sealed class RenderArguments
{
    private readonly Argument<Pitch> _played = CommonOptions.NoteArgument("played", "The played note, as in Bb1");
    private readonly Argument<Pitch> _sung = CommonOptions.NoteArgument("sung", "The sung note, as in F2");
    private readonly Option<double> _seconds = CommonOptions.NumberOption("--seconds", "s", 0.2, 14400, 5, "Length");
    private readonly Option<double> _coupling = CommonOptions.NumberOption("--coupling", string.Empty, 0, 1, 0.6, "0: separate, a plain sum; up to 1: the voice opens and shuts the flow through the lips");
    private readonly Option<double> _detuneSung = CommonOptions.NumberOption("--detune-sung", "c", -1200, 1200, 0, "Cents added to the sung note");
    private readonly Option<double> _detunePlayed = CommonOptions.NumberOption("--detune-played", "c", -1200, 1200, 0, "Cents added to the played note");
    private readonly Option<double> _detuneSungHz = CommonOptions.NumberOption("--detune-sung-hz", "Hz", -50, 50, 0, "Hz added to the sung note");
    private readonly Option<Pitch?> _glidePlayed = CommonOptions.NoteOption("--glide-played", "Note that the played tone glides to over the whole length");
    private readonly Option<Pitch?> _glideSung = CommonOptions.NoteOption("--glide-sung", "Note that the sung tone glides to over the whole length");
    private readonly Option<double> _level = CommonOptions.NumberOption("--level", "dB", -60, 12, 0, "Level; whatever is asked, the true peak stays at or under -1 dBTP");
    private readonly Option<bool> _living = new("--living") { Description = "Simulated lips on an air column instead of computed lines: it slots, cracks, and the voice catches it near unison and octave" };
    private readonly Option<string> _instrument = new("--instrument") { Description = "The played tone, by its preset's id; a wrong one lists them all", DefaultValueFactory = _ => "tuba", HelpName = "id" };
    private readonly Option<string> _voice = new("--voice") { Description = "The sung tone, by its preset's id: bass, tenor ...", DefaultValueFactory = _ => "bass", HelpName = "id" };
    private readonly Option<string[]> _only = new("--only") { Description = "Parts to hear alone: P, S, P+S, S-P, 2P-S ...", HelpName = "part", AllowMultipleArgumentsPerToken = true };
    private readonly Option<string[]> _mute = new("--mute") { Description = "Parts to leave out", HelpName = "part", AllowMultipleArgumentsPerToken = true };
    private readonly Option<string[]> _set = new("--set") { Description = "Any other control of the sound, as NAME=VALUE: playedDynamicDb=6, vowel=2, life=1 ...; a wrong name lists them all", HelpName = "name=value", AllowMultipleArgumentsPerToken = true };
    private readonly Option<int> _seed = CommonOptions.WholeOption("--seed", 0, int.MaxValue, 1, "Seed of the small natural variation");
    private readonly Option<int> _rate = CommonOptions.WholeOption("--rate", 8000, 192000, 48000, "Samples per second");
    private readonly Option<string> _encoding = new("--encoding") { Description = "16, 24 or float", DefaultValueFactory = _ => "24", HelpName = "bits" };
    private readonly Option<bool> _stems = new("--stems") { Description = "Write played, sung and resultants apart as well" };
    private readonly Option<string> _output = new Option<string>("--output", "-o") { Description = "The .wav file to write", Required = true, HelpName = "file" }.EndingIn("a sound", NameEnding.Sound);
    private readonly Option<double> _a4 = CommonOptions.A4();
    private readonly Option<string> _tuning = CommonOptions.TuningName();
    private readonly Option<Pitch?> _root = CommonOptions.Root();

    public RenderArguments() => _encoding.AcceptOnlyFromAmong("16", "24", "float");

    public void AddTo(Command command)
    {
        command.Add(_played);
        command.Add(_sung);
        foreach (Option option in new Option[]
        {
            _output, _seconds, _coupling, _detuneSung, _detunePlayed, _detuneSungHz, _glidePlayed, _glideSung, _a4, _tuning, _root,
            _living, _instrument, _voice, _only, _mute, _set, _level, _stems, _rate, _encoding, _seed,
        })
        {
            command.Add(option);
        }
    }

    public RenderOrder Read(ParseResult arguments)
    {
        Pitch played = arguments.GetValue(_played);
        double a4Hz = arguments.GetValue(_a4);
        Tuning.TryParse(arguments.GetValue(_tuning)!, arguments.GetValue(_root) ?? played, out Tuning? tuning);
        double? InHz(Pitch? pitch) => pitch is { } note ? tuning!.FrequencyHz(note, a4Hz) : null;
        return new RenderOrder(
            InHz(played)!.Value,
            InHz(arguments.GetValue(_sung))!.Value,
            InHz(arguments.GetValue(_glidePlayed)),
            InHz(arguments.GetValue(_glideSung)),
            arguments.GetValue(_detunePlayed),
            arguments.GetValue(_detuneSung),
            arguments.GetValue(_detuneSungHz),
            arguments.GetValue(_coupling),
            arguments.GetValue(_level),
            arguments.GetValue(_seconds),
            arguments.GetValue(_living),
            arguments.GetValue(_instrument)!,
            arguments.GetValue(_voice)!,
            arguments.GetValue(_only) ?? [],
            arguments.GetValue(_mute) ?? [],
            arguments.GetValue(_set) ?? [],
            arguments.GetValue(_seed),
            arguments.GetValue(_rate),
            arguments.GetValue(_encoding) switch { "16" => WavEncoding.Pcm16, "float" => WavEncoding.Floating32, _ => WavEncoding.Pcm24 },
            arguments.GetValue(_stems),
            arguments.GetValue(_output)!);
    }
}
