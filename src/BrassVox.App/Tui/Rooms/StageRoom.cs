using System.Globalization;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Scenes;
using BrassVox.Synthesis;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Scenes for a class or a hall: strangers hear the same thing at the same second.</summary>
internal sealed partial class StageRoom : Room
{
    private const double NumbersEverySeconds = 0.25;
    private readonly List<Scene> _discarded = [];
    private readonly string _ownFolder;
    private SceneLibrary _library;
    private SceneSound? _sound;
    private Scene? _shown;
    private int? _spotlight;
    private bool _listed = true;
    private bool _frozen;
    private bool _blank;
    private double _numbersAt = double.NegativeInfinity;
    private double _swellCycles;
    private PairSpectrum? _spectrum;

    /// <summary>Opens the room on the scene last shown; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public StageRoom(MusicStand stand)
        : base(stand)
    {
        _ownFolder = SceneLibrary.OwnFolder(stand.Parts.DataFolder);
        _library = Load();
        Keys =
        [
            new("Tab", "spotlight on the next part; then on none", [PressKind.Tab], NextSpotlight),
            new("x", "freeze picture, not sound", ['x'], ToggleFrozen),
            new("b", "blank the screen; again: back", ['b'], ToggleBlank),
            new("a", "list of scenes, picture", ['a'], ToggleList),
            new("r", "this scene from its beginning", ['r'], Again),
            new("1-9", "scene", [], () => Stand.Say("Digits 1 to 9 begin a scene.")),
            new("Del", "delete the marked scene, if it is your own", [PressKind.Delete], Discard),
            new("z", "undo the last deletion", ['z'], Undo),
        ];
        int last = Scenes.ToList().FindIndex(scene => scene.Id == stand.Memory.Now.Scene);
        Mark(Math.Max(0, last));
    }

    /// <inheritdoc/>
    public override string Title => "STAGE";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override int BackPedalStep => -1;

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices =>
    [
        .. Scenes.Select((scene, i) => new Choice(Label(scene), () => Begin(i))),
        new Choice("all keys", () => Stand.Open(new KeysRoom(Stand, this))),
        new Choice("leave", Stand.Back),
    ];

    /// <inheritdoc/>
    public override string Where => _shown is { } shown
        ? $"Stage: {Label(shown)}. {shown.About} {Stand.SoundingWords} Marked: {Choices[MarkedIndex].Label}."
        : $"Stage: {Scenes.Count} scenes. Marked: {Choices[MarkedIndex].Label}.";

    /// <inheritdoc/>
    public override string Phase => _shown?.Id ?? "";

    private IReadOnlyList<Scene> Scenes => _library.Scenes;

    private PairPart? Spotlight => _spotlight is { } index ? Stand.Desk.Engine?.Parts[index] : null;

    /// <inheritdoc/>
    public override void Entered()
    {
        Stand.Memory.Change(now => now with { OnStage = true });
        Stand.Memory.Save();
        if (_library.Problems is [{ } first, ..])
        {
            string more = _library.Problems.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $" and {_library.Problems.Count - 1} more") : "";
            Stand.Say($"Not loaded: {Path.GetFileName(first.File)}, line {first.Line}, {first.JsonPath}: {first.Message}{more} The others run.");
        }
    }

    /// <inheritdoc/>
    public override void Left()
    {
        foreach (PairPart part in Stand.Desk.Engine?.Parts ?? [])
        {
            Stand.Desk.SetGain(part.Index, 0);
        }

        Stand.Memory.Change(now => now with { OnStage = false });
        Stand.Memory.Save();
    }

    /// <inheritdoc/>
    public override bool Digit(int digit)
    {
        if (digit < 1 || digit > Scenes.Count)
        {
            return false;
        }

        Begin(digit - 1);
        return true;
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        if (_sound is null || _frozen)
        {
            return;
        }

        if (_spectrum is null || Stand.NowSeconds - _numbersAt >= NumbersEverySeconds)
        {
            ReadNumbers();
        }

        if (Stand.Desk.IsSounding)
        {
            _swellCycles += (Leading?.RateHz ?? 0) * Stand.TickSeconds;
        }
    }

    private PartialMeeting? Leading => _spectrum is { } spectrum ? PairWords.Leading(spectrum.Meetings()) : null;

    private SceneLibrary Load() => SceneLibrary.Load(SceneLibrary.ShippedFolder, _ownFolder);

    private static string Label(Scene scene) => string.Create(CultureInfo.InvariantCulture, $"{scene.Number} {scene.Name}");

    private void Begin(int index)
    {
        Begin(Scenes[index]);
        Mark(index + 1 < Scenes.Count ? index + 1 : 0);
    }

    private void Begin(Scene scene)
    {
        _shown = scene;
        _spotlight = null;
        _listed = false;
        _frozen = false;
        _blank = false;
        _sound = new SceneSound(scene, Stand.Profile.A4Hz);
        _sound.Begin(Stand.Desk, null);
        _spectrum = null;
        _swellCycles = 0;

        // Written at each change: after a crash, or a battery that gave out, the hall goes on where it was.
        Stand.Memory.Change(now => now with { Scene = scene.Id });
        Stand.Memory.Save();
        if (Stand.Desk is { HasDevice: false, IsOpening: false })
        {
            Stand.Say("No sound device: the scene is drawn, nothing is heard. Set-up tries again.");
        }
    }

    private void Again()
    {
        if (_shown is { } shown)
        {
            // As it is by now; one that was deleted meanwhile as it was.
            Begin(Scenes.FirstOrDefault(scene => scene.Id == shown.Id) ?? shown);
            Stand.Say($"{Label(_shown)}, from its beginning.");
        }
        else
        {
            Stand.Say("No scene has been shown yet: Enter begins the marked one.");
        }
    }

    private void ReadNumbers()
    {
        _numbersAt = Stand.NowSeconds;
        PairSetting pair = _sound!.Pair;
        var scale = new PairScale(pair.DeclaredHz(Theory.VoiceRole.Played), 1, 8);
        // A line that is slow to start has asked for no block yet: until the engine has rendered one its tones have no frequency.
        _spectrum = Stand.Desk is { IsSounding: true, Engine: { } engine }
            && (engine.Read(0).FrequencyHz, engine.Read(1).FrequencyHz) is ( > 0, > 0) sounding
            ? Unlit(PairView.OfEngine(engine, sounding.Item1, sounding.Item2, scale), engine)
            : AsAsked(PairView.OfSilence(
                pair.PlayedHz,
                pair.SungHz,
                scale,
                [.. (Stand.Desk.Engine?.Parts ?? []).Where(part => part.Index < 2 || _sound.GainDb(part, null) > -80)]));
    }

    private bool Sounds(string part) => _shown is not { } shown
        || (shown.Only is { } only ? string.Equals(only, part, StringComparison.Ordinal) : shown.Muted?.Contains(part) != true);

    private PairSpectrum AsAsked(PairSpectrum spectrum) => spectrum with
    {
        PlayedDb = Sounds("P") ? spectrum.PlayedDb : [],
        SungDb = Sounds("S") ? spectrum.SungDb : [],
    };

    /// <summary>The picture without the spotlight's own shade: what lies under it is drawn otherwise, and stays in its place.</summary>
    private PairSpectrum Unlit(PairSpectrum spectrum, IPairEngine engine)
    {
        if (Spotlight is not { } lit)
        {
            return spectrum;
        }

        double Shade(PairPart part) => _sound!.GainDb(part, null) - _sound.GainDb(part, lit);
        double played = Shade(engine.Parts[0]);
        double sung = Shade(engine.Parts[1]);
        return spectrum with
        {
            PlayedDb = [.. spectrum.PlayedDb.Select(level => level + played)],
            SungDb = [.. spectrum.SungDb.Select(level => level + sung)],
            Resultants = [.. spectrum.Resultants.Select(line => line with
            {
                LevelDb = line.LevelDb + Shade(engine.Parts.First(part => part.Played == line.Played && part.Sung == line.Sung)),
            })],
        };
    }

    private void NextSpotlight()
    {
        if (_shown is not { } shown || _sound is null || Stand.Desk.Engine is not { } engine)
        {
            Stand.Say("Spotlight lies on one part of a scene: Enter begins the marked one.");
            return;
        }

        if (shown.Only is { } only)
        {
            Stand.Say($"{only} is alone in this scene.");
            return;
        }

        int[] order =
        [
            .. engine.Parts
                .Where(part => _sound.GainDb(part, null) > -80 && (part.Index < 2 || (shown.Coupling > 0 && Math.Abs(part.Played) + Math.Abs(part.Sung) <= 3)))
                .Select(part => part.Index),
        ];
        int at = _spotlight is { } now ? Array.IndexOf(order, now) : -1;
        _spotlight = at + 1 < order.Length ? order[at + 1] : null;
        _sound.Mix(Stand.Desk, Spotlight);
        _numbersAt = double.NegativeInfinity;
        Stand.Say(Spotlight is { } part ? $"Spotlight on {part.Name}; the others lie under it, dotted." : "All parts alike.");
    }

    private void ToggleFrozen()
    {
        _blank = false;
        _frozen = !_frozen;
        Stand.Say(_frozen ? "Frozen: the picture stands, the sound goes on. x lets it move." : "The picture moves again.");
    }

    private void ToggleBlank()
    {
        _blank = !_blank;
        Stand.Say("");
    }

    private void ToggleList()
    {
        if (_shown is null)
        {
            Stand.Say("The picture comes with the first scene: Enter begins the marked one.");
            return;
        }

        _listed = _blank || !_listed;
        _blank = false;
    }

    private void Discard()
    {
        if (MarkedIndex >= Scenes.Count)
        {
            Stand.Say("No scene is marked.");
            return;
        }

        Scene scene = Scenes[MarkedIndex];
        string path = _library.FileOf(scene);
        if (Path.GetDirectoryName(path) != _ownFolder)
        {
            Stand.Say($"{scene.Name} comes with the program and stays. Your own scenes can be deleted.");
            return;
        }

        try
        {
            File.Delete(path);
            _discarded.Add(scene);
            _library = Load();
            Stand.Say($"{scene.Name} deleted; z brings it back until you leave Stage.");
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            Stand.Say($"{scene.Name} could not be deleted: {problem.Message}");
        }
    }

    private void Undo()
    {
        if (_discarded.Count == 0)
        {
            Stand.Say("Nothing to undo.");
            return;
        }

        Scene scene = _discarded[^1];
        try
        {
            SceneFile.Write(_ownFolder, scene);
            _discarded.RemoveAt(_discarded.Count - 1);
            _library = Load();
            Stand.Say($"{scene.Name} is back.");
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            Stand.Say($"{scene.Name} could not be written: {problem.Message}");
        }
    }
}
