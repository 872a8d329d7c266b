using System.Text.Json.Serialization;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>The file behind <see cref="Remembered"/>, flat and readable.</summary>
internal sealed record RememberedFile
{
    public required int FormatVersion { get; init; }

    public required Instrument Instrument { get; init; }

    public required VoiceKind Voice { get; init; }

    public required string LowestSung { get; init; }

    public required string HighestSung { get; init; }

    public required double A4Hz { get; init; }

    public required NoteNaming NoteNames { get; init; }

    public required bool ReadsTransposed { get; init; }

    public required string Played { get; init; }

    public required string Sung { get; init; }

    public required string Tuning { get; init; }

    public required double Coupling { get; init; }

    public required double PlayedCents { get; init; }

    public required double SungCents { get; init; }

    public required double LevelDb { get; init; }

    public required string Theme { get; init; }

    public string? OutputDevice { get; init; }

    public string? InputDevice { get; init; }

    public string? Scene { get; init; }

    public bool OnStage { get; init; }

    public double? SpeakerLowestHz { get; init; }

    public string? SpeakerAnswers { get; init; }

    public bool OctaveUp { get; init; }

    public double? DelayMs { get; init; }

    public string? InputFound { get; init; }

    public bool ArrowPedal { get; init; }

    public bool PlainSigns { get; init; }

    public int ClickChannel { get; init; }

    // The reader of JSON gives 0 where a file, as an older one, does not name them.
    public double PassageTempo { get; init => field = value == 0 ? UsualTempo : value; } = UsualTempo;

    public int PassageOctaves { get; init; }

    public int PassageFromBar { get; init => field = value == 0 ? 1 : value; } = 1;

    public int PassageToBar { get; init; }

    public string? Passage { get; init; }

    private const int Version = 1;
    private const double UsualTempo = 80;

    /// <summary>The file's form of what is remembered.</summary>
    /// <param name="now">What is remembered.</param>
    public static RememberedFile From(Remembered now) => new()
    {
        FormatVersion = Version,
        Instrument = now.Profile.Instrument,
        Voice = now.Profile.Voice,
        LowestSung = now.Profile.LowestSung.ToString(),
        HighestSung = now.Profile.HighestSung.ToString(),
        A4Hz = now.Profile.A4Hz,
        NoteNames = now.Naming,
        ReadsTransposed = now.ReadsTransposed,
        Played = now.Pair.Played.ToString(),
        Sung = now.Pair.Sung.ToString(),
        Tuning = now.Pair.TuningName,
        Coupling = now.Pair.Coupling,
        PlayedCents = now.Pair.PlayedCents,
        SungCents = now.Pair.SungCents,
        LevelDb = now.LevelDb,
        Theme = now.Theme,
        OutputDevice = now.OutputDevice,
        InputDevice = now.InputDevice,
        Scene = now.Scene,
        OnStage = now.OnStage,
        SpeakerLowestHz = now.SpeakerLowestHz,
        SpeakerAnswers = now.SpeakerAnswers.Length > 0 ? now.SpeakerAnswers : null,
        OctaveUp = now.OctaveUp,
        DelayMs = now.DelayMs,
        InputFound = now.InputFound,
        ArrowPedal = now.ArrowPedal,
        PlainSigns = now.PlainSigns,
        ClickChannel = now.ClickChannel,
        PassageTempo = now.PassageTempo,
        PassageOctaves = now.PassageOctaves,
        PassageFromBar = now.PassageFromBar,
        PassageToBar = now.PassageToBar,
        Passage = now.Passage,
    };

    /// <summary>What is remembered, from the file's form.</summary>
    /// <exception cref="FormatException">A value is outside its range or no note.</exception>
    public Remembered ToRemembered()
    {
        Check(FormatVersion == Version, $"formatVersion {FormatVersion} is not {Version}");
        Check(Enum.IsDefined(Instrument) && Enum.IsDefined(Voice) && Enum.IsDefined(NoteNames), "instrument, voice and noteNames are words of this version");
        Check(A4Hz is >= EqualTemperament.LowestA4Hz and <= EqualTemperament.HighestA4Hz, "a4Hz lies from 400 to 480");
        Check(PairSetting.TuningNames.Contains(Tuning, StringComparer.Ordinal), "tuning is equal, just, pythagorean or meantone");
        Check(Coupling is >= 0 and <= 1, "coupling lies from 0 to 1");
        Check(Math.Abs(PlayedCents) <= PairSetting.MostCents && Math.Abs(SungCents) <= PairSetting.MostCents, "cents lie from -600 to 600");
        Check(double.IsFinite(LevelDb), "levelDb is a number");
        Check(Theme is "dark" or "light" or "none", "theme is dark, light or none");
        Check(SpeakerLowestHz is null or (>= 10 and <= 1000), "speakerLowestHz lies from 10 to 1000");
        Check(SpeakerAnswers is null || (SpeakerAnswers.Length < Remembered.SpeakerTones.Count && SpeakerAnswers.All(sign => Remembered.SpeakerSigns.Contains(sign))), $"speakerAnswers are fewer than {Remembered.SpeakerTones.Count} of the letters h, f, n");
        Check(DelayMs is null or (>= 0 and <= 2000), "delayMs lies from 0 to 2000");
        Check(ClickChannel is >= 0 and <= 64, "clickChannel lies from 0 to 64");
        Check(PassageTempo is >= 40 and <= 110 && PassageOctaves is >= -1 and <= 1, "passageTempo lies from 40 to 110, passageOctaves from -1 to 1");
        Check(PassageFromBar >= 1 && PassageToBar >= 0, "passageFromBar counts from 1, passageToBar from 0");
        var profile = new PlayerProfile(Instrument, Voice, Pitch.Parse(LowestSung), Pitch.Parse(HighestSung), A4Hz);
        var pair = new PairSetting(Pitch.Parse(Played), Pitch.Parse(Sung), Tuning, A4Hz, Coupling, PlayedCents, SungCents);
        return new Remembered(profile, NoteNames, ReadsTransposed, pair, LevelDb, Theme, OutputDevice, InputDevice, Scene, OnStage)
        {
            SpeakerLowestHz = SpeakerLowestHz,
            SpeakerAnswers = SpeakerAnswers ?? "",
            OctaveUp = OctaveUp,
            DelayMs = DelayMs,
            InputFound = InputFound,
            ArrowPedal = ArrowPedal,
            PlainSigns = PlainSigns,
            ClickChannel = ClickChannel,
            PassageTempo = PassageTempo,
            PassageOctaves = PassageOctaves,
            PassageFromBar = PassageFromBar,
            PassageToBar = PassageToBar,
            Passage = Passage,
        };
    }

    private static void Check(bool holds, string wanted)
    {
        if (!holds)
        {
            throw new FormatException(wanted);
        }
    }
}

/// <summary>How the remembered file is read and written.</summary>
[JsonSourceGenerationOptions(
    WriteIndented = true,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UseStringEnumConverter = true,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true)]
[JsonSerializable(typeof(RememberedFile))]
internal sealed partial class RememberedJson : JsonSerializerContext;
