using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>What the screens remember from one run to the next.</summary>
/// <param name="Profile">The player.</param>
/// <param name="Naming">The language of note names.</param>
/// <param name="ReadsTransposed">True when the player reads the instrument's transposed treble clef.</param>
/// <param name="Pair">The pair last explored.</param>
/// <param name="LevelDb">The level last used, in dB.</param>
/// <param name="Theme">dark, light or none.</param>
/// <param name="OutputDevice">Id of the output device, or null for the system's choice.</param>
/// <param name="InputDevice">Id of the input device, or null for the system's choice.</param>
/// <param name="Scene">Id of the scene last shown, or null.</param>
/// <param name="OnStage">True while Stage is open: a run that ended there begins there, silent.</param>
/// <param name="PlayerName">Name of the player; empty for the only one.</param>
/// <param name="Unit">The unit in which distances are shown first.</param>
/// <param name="SpeakerLowestHz">Lowest tone that the loudspeaker was heard to carry, in Hz; null when not tested.</param>
/// <param name="SpeakerAnswers">What was answered of the low tones so far in a test that was left, the highest first, each one of <see cref="SpeakerSigns"/>; empty for none.</param>
/// <param name="OctaveUp">True to sound pairs whose played note lies lower than that in octaves above, marked 8va.</param>
/// <param name="DelayMs">Round-trip delay as last measured, in ms; null when not measured.</param>
/// <param name="InputFound">What was found out about the microphone's processing, in words; null when not tested.</param>
/// <param name="ArrowPedal">True when the arrows are a pedal: left and up its back side, right and down its forward side.</param>
/// <param name="PlainSigns">True to draw with signs from 0x20 to 0x7E only.</param>
/// <param name="ClickChannel">Output channel from 1 that the click has for itself; 0 mixes it in.</param>
/// <param name="PassageTempo">Tempo last practised in Passage, in per cent.</param>
/// <param name="PassageOctaves">Octaves by which the voice was moved in Passage.</param>
/// <param name="PassageFromBar">First bar of the loop in Passage, from 1.</param>
/// <param name="PassageToBar">Last bar of the loop in Passage; 0 for none chosen.</param>
/// <param name="Passage">The passage last open: name of an own one or path of a file; null for the shipped one.</param>
internal sealed record Remembered(
    PlayerProfile Profile,
    NoteNaming Naming,
    bool ReadsTransposed,
    PairSetting Pair,
    double LevelDb,
    string Theme,
    string? OutputDevice = null,
    string? InputDevice = null,
    string? Scene = null,
    bool OnStage = false,
    string PlayerName = "",
    DisplayUnit Unit = DisplayUnit.Cents,
    double? SpeakerLowestHz = null,
    string SpeakerAnswers = "",
    bool OctaveUp = false,
    double? DelayMs = null,
    string? InputFound = null,
    bool ArrowPedal = false,
    bool PlainSigns = false,
    int ClickChannel = 0,
    double PassageTempo = 80,
    int PassageOctaves = 0,
    int PassageFromBar = 1,
    int PassageToBar = 0,
    string? Passage = null)
{
    /// <summary>Heard, faint, not heard.</summary>
    public const string SpeakerSigns = "hfn";

    /// <summary>The tones that the loudspeaker's test sounds, the highest first.</summary>
    public static IReadOnlyList<string> SpeakerTones { get; } = ["Bb2", "F2", "C2", "Bb1", "F1", "C1", "Bb0"];

    /// <summary>The player as a file of players keeps them.</summary>
    public Player Player => new(PlayerName, Profile, Naming, ReadsTransposed, Unit);

    /// <summary>Another player at the same stand; their home pair is the one explored.</summary>
    /// <param name="player">The player.</param>
    public Remembered For(Player player) => As(player) with { Pair = player.Profile == Profile ? Pair : HomePair(player.Profile) };

    /// <summary>The stand as it was left, with what is kept of its player by now: the pair last explored stays where instrument and voice do.</summary>
    /// <param name="player">The player.</param>
    public Remembered Again(Player player) => Fits(player.Profile)
        ? As(player) with { Pair = Pair with { A4Hz = player.Profile.A4Hz } }
        : For(player);

    /// <summary>True when instrument and voice are those of a profile, so that the pair suits it.</summary>
    /// <param name="profile">The profile.</param>
    public bool Fits(PlayerProfile profile) => (Profile.Instrument, Profile.Voice) == (profile.Instrument, profile.Voice);

    /// <summary>The same stand with what is kept of a player.</summary>
    /// <param name="player">The player.</param>
    public Remembered As(Player player) => this with
    {
        PlayerName = player.Name,
        Profile = player.Profile,
        Naming = player.NoteNames,
        ReadsTransposed = player.ReadsTransposed,
        Unit = player.Unit,
    };

    /// <summary>What was changed here, over what the files hold by now: another window, or a command, may have written them since. Where both changed one thing, this is what stays.</summary>
    /// <param name="known">What was known here when the files were last read or written.</param>
    /// <param name="held">What the files hold.</param>
    public Remembered Over(Remembered known, Remembered held)
    {
        T Of<T>(Func<Remembered, T> part) => EqualityComparer<T>.Default.Equals(part(this), part(known)) ? part(held) : part(this);

        // What was found out about devices goes with the devices.
        static (string?, string?) Devices(Remembered all) => (all.OutputDevice, all.InputDevice);
        Remembered? tested = Devices(this) != Devices(known) ? this : Devices(held) != Devices(known) ? held : null;
        T Found<T>(Func<Remembered, T> part) => tested is { } from ? part(from) : Of(part);
        (string? passage, int fromBar, int toBar) = Of(all => (all.Passage, all.PassageFromBar, all.PassageToBar));

        // Instrument, voice and its notes belong together; pitch, tuning and aim stand each alone.
        PlayerProfile profile = Of(all => all.Profile with { A4Hz = 0, TuningName = "", TuningRoot = null, Aim = default }) with
        {
            A4Hz = Of(all => all.Profile.A4Hz),
            TuningName = Of(all => all.Profile.TuningName),
            TuningRoot = Of(all => all.Profile.TuningRoot),
            Aim = Of(all => all.Profile.Aim),
        };
        return new Remembered(profile, Of(all => all.Naming), Of(all => all.ReadsTransposed), Of(all => all.Pair), Of(all => all.LevelDb), Of(all => all.Theme))
        {
            OutputDevice = Of(all => all.OutputDevice),
            InputDevice = Of(all => all.InputDevice),
            Scene = Of(all => all.Scene),
            OnStage = Of(all => all.OnStage),
            PlayerName = Of(all => all.PlayerName),
            Unit = Of(all => all.Unit),
            SpeakerLowestHz = Found(all => all.SpeakerLowestHz),
            SpeakerAnswers = Found(all => all.SpeakerAnswers),
            OctaveUp = Found(all => all.OctaveUp),
            DelayMs = Found(all => all.DelayMs),
            InputFound = Found(all => all.InputFound),
            ArrowPedal = Of(all => all.ArrowPedal),
            PlainSigns = Of(all => all.PlainSigns),
            ClickChannel = Of(all => all.ClickChannel),
            PassageTempo = Of(all => all.PassageTempo),
            PassageOctaves = Of(all => all.PassageOctaves),
            PassageFromBar = fromBar,
            PassageToBar = toBar,
            Passage = passage,
        };
    }

    /// <summary>Level of the very first sound, in dB. Low brass, to which loudness is half deaf, then still lies under -30 dBFS.</summary>
    public const double FirstLevelDb = -36;

    /// <summary>Loudest level a run begins with, in dB.</summary>
    public const double LoudestStartDb = -24;

    private const double UsualCoupling = 0.6;

    /// <summary>What holds before any answer: a tuba player with a low voice.</summary>
    public static Remembered Usual()
    {
        PlayerProfile profile = PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low);
        return new Remembered(profile, NoteNaming.English, false, HomePair(profile), FirstLevelDb, "dark");
    }

    /// <summary>The first home pair of a player, tempered and coupled.</summary>
    /// <param name="profile">The player.</param>
    public static PairSetting HomePair(PlayerProfile profile)
    {
        HomePair home = HomePairs.Of(profile.Instrument, profile.Voice)[0];
        return new PairSetting(home.Played, home.Sung, Tuning.Equal.Name, profile.A4Hz, UsualCoupling);
    }
}
