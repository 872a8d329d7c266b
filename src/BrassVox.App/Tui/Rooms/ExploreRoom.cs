using System.Globalization;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Sound;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Hear a pair, take it apart, understand why it beats.</summary>
internal sealed partial class ExploreRoom : Room
{
    private const double LargeStepCents = 5;
    private const double SmallStepCents = 1;
    private const double GlideSeconds = 4;
    private const double NumbersEverySeconds = 0.25;
    private const double LowestPlayedHz = 20;
    private const double HighestHz = 1600;
    private static readonly double[] Couplings = [0, 0.3, 0.6, 1];
    private static readonly string[] Vowels = ["oo", "oh", "ah", "eh", "ee"];

    private readonly PartMix _mix = new();
    private readonly LivePair _live;
    private PairSetting _pair;
    private int _inHand = 1;
    private Panel _panel = Panel.Parts;
    private PairScale? _scale;
    private int _scaleWidth;
    private PairSpectrum? _spectrum;
    private IReadOnlyList<PartialMeeting> _meetings = [];
    private double _numbersAt = double.NegativeInfinity;
    private double _swellCycles;
    private bool _frozen;
    private bool _holdsAllPanels;
    private Glide? _glide;

    /// <summary>Opens the room on the remembered pair; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public ExploreRoom(MusicStand stand)
        : base(stand)
    {
        _pair = stand.Memory.Now.Pair with { A4Hz = stand.Profile.A4Hz };
        _live = new LivePair(stand.Parts.Audio, stand.Parts.CreateTracker);
        Keys =
        [
            new("p s", "take P or S in hand", ['p'], () => TakeInHand(0)),
            new("s", "take S in hand", ['s'], () => TakeInHand(1), IsListed: false),
            new("Tab", "next part in hand", [PressKind.Tab], NextInHand),
            new("Left Right", "5 c lower, higher (j l)", [PressKind.Left, 'j'], () => Nudge(-LargeStepCents)),
            new("Right", "5 c higher", [PressKind.Right, 'l'], () => Nudge(LargeStepCents), IsListed: false),
            new(", .", "1 c lower, higher", [','], () => Nudge(-SmallStepCents)),
            new(".", "1 c higher", ['.'], () => Nudge(SmallStepCents), IsListed: false),
            new("Up Down", "semitone up, down (u d)", [PressKind.Up, 'u'], () => StepNote(1)),
            new("Down", "a semitone down", [PressKind.Down, 'd'], () => StepNote(-1), IsListed: false),
            new("n", "name a pair (text)", ['n'], AskPair),
            new("c", "coupled 0 30 60 100", ['c'], NextCoupling),
            new("e", "tuning: equal, just, pythagorean, meantone", ['e'], NextTuning),
            new("v", "sung tone an octave", ['v'], MoveOctave),
            new("m", "mute the part in hand", ['m'], Mute),
            new("o", "only the part in hand", ['o'], Only),
            new("f", "fade the part in hand", ['f'], Fade),
            new("g", "glide to a named note", ['g'], AskGlide),
            new("i", "microphone on, off", ['i'], ToggleMicrophone),
            new("a", "change the panel", ['a'], NextPanel),
            new("1-5", "vowel: oo oh ah eh ee", [], NextVowel),
            new("k", "keep: lay under, scene of Stage", ['k'], Keep),
            new("z", "undo the last keep", ['z'], UndoKeep),
            new("x", "freeze picture, not sound", ['x'], ToggleFrozen),
        ];
    }

    private enum Panel
    {
        Parts,
        Breath,
        Approach,
        Far,
    }

    /// <inheritdoc/>
    public override string Title => "EXPLORE";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices =>
    [
        Stand.Desk.IsSounding
            ? new Choice(_pair.Coupling > 0 ? "separate" : "coupled", ToggleCoupled)
            : new Choice("sound", Sound),
        new Choice("all keys", () => Stand.Open(new KeysRoom(Stand, this))),
        new Choice("leave", Stand.Back),
    ];

    /// <inheritdoc/>
    public override string Where
    {
        get
        {
            string reading = PlayerWords.Reading(Stand, _pair.Played);
            return string.Create(
                CultureInfo.InvariantCulture,
                $"Explore: P {Described(VoiceRole.Played)}{BoundFor(VoiceRole.Played)}{(reading.Length > 0 ? $" ({reading})" : "")}, S {Described(VoiceRole.Sung)}{BoundFor(VoiceRole.Sung)}, {PairWords.Interval(Cents.Between(NowHz(VoiceRole.Played), NowHz(VoiceRole.Sung)), _pair.TuningName)}. {Stand.SoundingWords}");
        }
    }

    private IReadOnlyList<PairPart> Parts => Stand.Desk.Engine?.Parts ?? [];

    private VoiceRole? RoleInHand => _inHand switch
    {
        0 => VoiceRole.Played,
        1 => VoiceRole.Sung,
        _ => null,
    };

    /// <inheritdoc/>
    public override void Left()
    {
        Stand.Memory.Change(now => now with { Pair = _pair });
        Stand.Memory.Save();
        _live.Close();
        ApplyMix(new PartMix());
    }

    /// <inheritdoc/>
    public override void Silenced() => EndGlide();

    /// <inheritdoc/>
    public override void Tick()
    {
        if (_live.Poll(_pair) is { } news)
        {
            Stand.Say(news);
        }

        if (_glide is { } glide && Stand.NowSeconds - glide.StartedAt >= GlideSeconds)
        {
            EndGlide();
        }

        if (!_frozen && _scale is not null && Stand.NowSeconds - _numbersAt >= NumbersEverySeconds)
        {
            ReadNumbers();
        }

        _swellCycles += (SwellRate() ?? 0) * Stand.TickSeconds;
    }

    private static double Clamped(double hz) => Math.Clamp(hz, LowestPlayedHz, HighestHz);

    private double NowHz(VoiceRole role)
    {
        if (_glide is { } glide && glide.Role == role)
        {
            return glide.Path.FrequencyHz(Stand.NowSeconds - glide.StartedAt);
        }

        return role == VoiceRole.Played ? _pair.PlayedHz : _pair.SungHz;
    }

    // On its way to another note a tone is named by where it is.
    private string Described(VoiceRole role) => _glide is { } glide && glide.Role == role ? Stand.NameNear(NowHz(role)) : _pair.Described(role, Stand.Name);

    private string BoundFor(VoiceRole role) => _glide is { } glide && glide.Role == role ? $", gliding to {glide.End.Described(role, Stand.Name)}" : "";

    private void ReadNumbers()
    {
        _numbersAt = Stand.NowSeconds;
        PairScale scale = _scale!;
        _spectrum = _live.Reading is { } reading
            ? PairView.OfMicrophone(_live.Listener!, reading.PlayedHz, reading.SungHz, scale, Parts)
            : Stand.Desk is { IsSounding: true, Engine: { } engine }
                ? PairView.OfEngine(engine, NowHz(VoiceRole.Played), NowHz(VoiceRole.Sung), scale)
                : PairView.OfSilence(NowHz(VoiceRole.Played), NowHz(VoiceRole.Sung), scale, Parts);
        _meetings = _spectrum.Meetings();
    }

    private double? SwellRate() => _live.Reading is { } reading
        ? reading.BeatRateHz
        : Stand.Desk.IsSounding ? PairWords.Leading(_meetings)?.RateHz : null;

    private void Sound()
    {
        ApplyMix(_mix);
        Stand.Desk.Sound(PitchPath.Constant(Clamped(_pair.PlayedHz)), PitchPath.Constant(Clamped(_pair.SungHz)), _pair.Coupling);
        _numbersAt = double.NegativeInfinity;
        if (Stand.Desk is { HasDevice: false, IsOpening: false })
        {
            Stand.Say("No sound device: the picture is drawn, nothing is heard. Set-up tries again.");
        }
    }

    private void ApplyMix(PartMix mix)
    {
        foreach (PairPart part in Parts)
        {
            Stand.Desk.SetGain(part.Index, mix.GainDb(part.Index));
        }
    }

    private void Change(PairSetting pair, string message)
    {
        _glide = null;
        _pair = pair;
        Stand.Memory.Change(now => now with { Pair = pair });
        Stand.Desk.SetPitch(VoiceRole.Played, PitchPath.Constant(Clamped(pair.PlayedHz)));
        Stand.Desk.SetPitch(VoiceRole.Sung, PitchPath.Constant(Clamped(pair.SungHz)));
        _live.Expect(pair);
        _numbersAt = double.NegativeInfinity;
        Stand.Say(message);
    }

    private void TakeInHand(int part)
    {
        _inHand = part;
        Stand.Say($"{(part == 0 ? "P" : "S")} in hand: the arrows, m, o and f act on it.");
    }

    private void NextInHand()
    {
        int[] order = [.. PartRows().Select(row => row.Index)];
        if (order.Length > 0)
        {
            _inHand = order[(Array.IndexOf(order, _inHand) + 1) % order.Length];
        }

        Stand.Say($"{PartName(_inHand)} in hand.");
    }

    private string PartName(int index) => index < Parts.Count ? Parts[index].Name : index == 0 ? "P" : "S";

    private void Nudge(double cents)
    {
        if (RoleInHand is not { } role)
        {
            Stand.Say($"{PartName(_inHand)} follows P and S: take p or s in hand to move a tone.");
            return;
        }

        PairSetting next = Bound.Nudged(role, cents);
        Change(next, string.Create(
            CultureInfo.InvariantCulture, $"{PartName(_inHand)} {next.OffsetCents(role):+0.#;-0.#;0} c. {PairWords.BeatSentence(Preview(next))}"));
    }

    private static IReadOnlyList<PartialMeeting> Preview(PairSetting pair)
    {
        double[] levels = new double[12];
        return new PairSpectrum(pair.PlayedHz, pair.SungHz, true, levels, levels, []).Meetings();
    }

    private void StepNote(int semitones)
    {
        if (RoleInHand is not { } role)
        {
            Stand.Say($"{PartName(_inHand)} follows P and S: take p or s in hand to move a tone.");
            return;
        }

        Pitch note = Pitch.FromMidi(Bound.Note(role).MidiNumber + semitones);
        TryNote(role, note, $"{(role == VoiceRole.Played ? "P" : "S")} {Stand.Name(note)}.");
    }

    private void TryNote(VoiceRole role, Pitch note, string message)
    {
        PairSetting next = Bound.WithNote(role, note);
        if (next.PlayedHz < LowestPlayedHz || next.SungHz < LowestPlayedHz || next.PlayedHz > HighestHz || next.SungHz > HighestHz)
        {
            Stand.Say(string.Create(CultureInfo.InvariantCulture, $"{Stand.Name(note)} lies outside {LowestPlayedHz:0} to {HighestHz:0} Hz."));
            return;
        }

        Change(next, message);
    }

    private void MoveOctave()
    {
        Pitch sung = Bound.Sung;
        Pitch up = sung.Transposed(1);
        Pitch note = Stand.Profile.CanSing(up) ? up : sung.Transposed(-1);
        if (!Stand.Profile.CanSing(note) && Stand.Profile.CanSing(sung))
        {
            Stand.Say($"No other octave of {Stand.Name(sung)} lies in your voice, {Stand.Name(Stand.Profile.LowestSung)} to {Stand.Name(Stand.Profile.HighestSung)}.");
            return;
        }

        PairSetting next = Bound.WithNote(VoiceRole.Sung, note);
        TryNote(VoiceRole.Sung, note, $"S {Stand.Name(note)}: another chord. S-P is now {Made(next, -1, 1)}, P+S {Made(next, 1, 1)}.");
    }

    private string Made(PairSetting pair, int played, int sung)
    {
        double hz = Math.Abs((played * pair.PlayedHz) + (sung * pair.SungHz));
        return hz < NearestNote.LowestPitchHz ? "no tone" : Stand.NameNear(hz);
    }

    private void NextCoupling()
    {
        int index = Array.FindIndex(Couplings, depth => depth > _pair.Coupling + 1e-6);
        SetCoupling(Couplings[Math.Max(0, index)]);
    }

    private void ToggleCoupled() => SetCoupling(_pair.Coupling > 0 ? 0 : 0.6);

    private void SetCoupling(double depth)
    {
        _pair = _pair with { Coupling = depth };
        Stand.Memory.Change(now => now with { Pair = _pair });
        Stand.Desk.SetCoupling(depth);
        _numbersAt = double.NegativeInfinity;
        Stand.Say(depth == 0
            ? "Separate: a plain sum. What they make together is gone from the sound."
            : string.Create(CultureInfo.InvariantCulture, $"Coupled {100 * depth:0}: the voice opens and shuts the flow through the lips."));
    }

    private void NextTuning()
    {
        PairSetting pair = Bound;
        int index = PairSetting.TuningNames.ToList().IndexOf(pair.TuningName);
        string name = PairSetting.TuningNames[(index + 1) % PairSetting.TuningNames.Count];
        PairSetting next = pair with { TuningName = name };
        Change(next, $"Tuning {name}{(name == Tuning.Equal.Name ? "" : $" from {NoteNames.WithoutOctave(next.Played, Stand.Memory.Now.Naming)}")}: {PairWords.Interval(next.IntervalCents, name)}.");
    }

    private void Mute() => Mixed(_mix.ToggleMute(_inHand) ? "muted" : "sounds again");

    private void Only() => Mixed(_mix.ToggleOnly(_inHand) ? "alone; o again brings the others back" : "with all others again");

    private void Fade() => Mixed(_mix.ToggleFade(_inHand) ? "faded under the rest" : "back at its level");

    private void Mixed(string what)
    {
        ApplyMix(_mix);
        _numbersAt = double.NegativeInfinity;
        Stand.Say($"{PartName(_inHand)} {what}.");
    }

    private void AskPair() => Stand.Ask(new TextBox("name a pair, played then sung:", text =>
    {
        (PairSetting? pair, TextFault? fault) = PairReading.Read(text, Bound, Stand.Memory.Now.Naming);
        if (pair is null)
        {
            return fault;
        }

        if (pair.PlayedHz < LowestPlayedHz || pair.SungHz < LowestPlayedHz || pair.PlayedHz > HighestHz || pair.SungHz > HighestHz)
        {
            return new TextFault(string.Create(CultureInfo.InvariantCulture, $"Both notes lie from {LowestPlayedHz:0} to {HighestHz:0} Hz."));
        }

        _mix.Reset();
        Change(pair, "");
        return null;
    }));

    private void ToggleMicrophone()
    {
        if (_live.IsOn)
        {
            _live.Close();
            Stand.Say("Microphone off.");
        }
        else
        {
            _live.Open(Stand.Memory.Now.InputDevice, _pair, BreathPanel.ColumnsFor(Math.Max(MusicStand.LeastWidth, _scaleWidth)));
            _panel = Panel.Breath;
            Stand.Say("Microphone opening. Play and sing the pair; a loudspeaker tone beside you is not coupled to you.");
        }
    }

    private void NextPanel()
    {
        // A tall window shows all at once but the large figures: there the key goes to these and back.
        _panel = _holdsAllPanels ? _panel == Panel.Far ? Panel.Parts : Panel.Far : (Panel)(((int)_panel + 1) % 4);
        Stand.Say(_panel == Panel.Breath && !_live.IsOn ? "Breath: i turns the microphone on." : "");
    }

    private void ToggleFrozen()
    {
        _frozen = !_frozen;
        Stand.Say(_frozen ? "Frozen: the picture stands, the sound goes on. x lets it move." : "The picture moves again.");
    }
}
