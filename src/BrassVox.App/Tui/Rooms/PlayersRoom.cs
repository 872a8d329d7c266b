using System.Globalization;
using BrassVox.Analysis;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Who plays: several players of a studio, each with their range, register change, pitch and unit.</summary>
internal sealed class PlayersRoom : Room
{
    private const int Fields = 6;
    private const double CaptureSeconds = 3;
    private readonly List<AnalysisFrame> _heard = [];
    private string[] _names = [];
    private Listener? _listener;
    private double _captureUntil;

    /// <summary>Opens the room; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public PlayersRoom(MusicStand stand)
        : base(stand)
    {
        Keys =
        [
            new("Left", "the answer before", [PressKind.Left], () => Change(-1)),
            new("Right", "the answer after", [PressKind.Right], () => Change(1)),
            new("n", "a new player (text)", ['n'], AskName),
            new("i", "A4 from your home note, through the microphone", ['i'], Capture),
        ];
        ReadNames();
    }

    /// <inheritdoc/>
    public override string Title => "PLAYERS";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices =>
    [
        new("player", () => Change(1)),
        new("lowest sung", () => Change(1)),
        new("highest sung", () => Change(1)),
        new("upper register", () => Change(1)),
        new("A4", () => Change(1)),
        new("shown first", () => Change(1)),
        new("A4 from my home note", Capture),
        new("new player", AskName),
        new("leave", Stand.Back),
    ];

    /// <inheritdoc/>
    public override string Where => $"Players: {Choices[MarkedIndex].Label} is marked. Left and Right change it.";

    private Pitch HomeNote => HomePairs.Of(Stand.Profile.Instrument, Stand.Profile.Voice)[0].Played;

    /// <inheritdoc/>
    public override void Left()
    {
        _listener?.Close();
        Stand.Memory.Save();
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        if (_listener is not { } listener)
        {
            return;
        }

        listener.Collect(_heard);
        if (listener.Trouble is { } trouble)
        {
            Stand.Say(trouble);
            EndCapture();
        }
        else if (!listener.IsHearing)
        {
            _captureUntil = Stand.NowSeconds + CaptureSeconds;
        }
        else if (Stand.NowSeconds >= _captureUntil)
        {
            TakeA4();
        }
    }

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        PlayerProfile profile = Stand.Profile;
        Stand.DrawHeader(canvas, Stand.PlayerName, PlayerWords.Line(Stand));
        string[] values =
        [
            PlayersInLine(canvas.Width - 25),
            $"[{Stand.Name(profile.LowestSung)}]",
            $"[{Stand.Name(profile.HighestSung)}]",
            profile.RegisterChange is { } change ? $"from [{Stand.Name(change)}] up" : "[not told]",
            string.Create(CultureInfo.InvariantCulture, $"[{profile.A4Hz:0.#}]   {TuningNote.LowestA4Hz:0} to {TuningNote.HighestA4Hz:0}"),
            Stand.Memory.Now.Unit == DisplayUnit.Cents ? "[cents]   beats" : "cents   [beats]",
            _listener is null ? $"play {Stand.Name(HomeNote)} for three seconds" : $"listening: hold {Stand.Name(HomeNote)}",
            "a name; everything else can be answered afterwards",
            "",
        ];
        canvas.Write(2, 2, "Instrument, voice, note names and clef are in Set-up.", Ink.Quiet);
        for (int i = 0; i < Choices.Count; i++)
        {
            bool marked = i == MarkedIndex;
            int y = 4 + i + (i >= Fields ? 1 : 0);
            if (marked)
            {
                canvas.Put(0, y, Glyphs.Marked, Ink.Marked);
            }

            canvas.Write(2, y, Choices[i].Label, marked ? Ink.Marked : Ink.Text);
            canvas.Write(24, y, values[i].AsSpan(0, Math.Min(values[i].Length, canvas.Width - 25)));
        }

        canvas.Paragraph(2, 16, canvas.Width - 4, "The range is what you sing with ease, not what you can reach. Where the voice changes register, glides break and pitches jump: exercises warn you there.");
        DrawKeyLine(canvas, 0, "Up Down line  Left Right answer  n new  i microphone  Space tacet  h keys");
    }

    private static string Shown(string name) => name.Length > 0 ? name : "(no name)";

    /// <summary>Who practises, then the others in the order in which Right comes to them; whole names, and how many more there are.</summary>
    private string PlayersInLine(int width)
    {
        int now = Array.IndexOf(_names, Stand.PlayerName);
        string line = $"[{Shown(Stand.PlayerName)}]";
        for (int i = 1; i < _names.Length; i++)
        {
            string longer = $"{line}   {Shown(_names[(now + i) % _names.Length])}";
            int left = _names.Length - i;
            string more = left == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"   and {left - 1} more");
            if (longer.Length + more.Length > width)
            {
                return string.Create(CultureInfo.InvariantCulture, $"{line}   and {left} more");
            }

            line = longer;
        }

        return line;
    }

    private void ReadNames()
    {
        Stand.Memory.Save();
        string[] kept = [.. Stand.Memory.Players?.Names ?? []];
        _names = kept.Contains(Stand.PlayerName) ? kept : [Stand.PlayerName, .. kept];
    }

    private void Change(int step)
    {
        PlayerProfile profile = Stand.Profile;
        switch (MarkedIndex)
        {
            case 0:
                NextPlayer(step);
                break;
            case 1:
                Set(profile with { LowestSung = Moved(profile.LowestSung, step, 24, profile.HighestSung.MidiNumber) });
                break;
            case 2:
                Set(profile with { HighestSung = Moved(profile.HighestSung, step, profile.LowestSung.MidiNumber, MeasuredNotes.Highest.MidiNumber) });
                break;
            case 3:
                Set(profile with { RegisterChange = NextChange(profile, step) });
                break;
            case 4:
                Set(profile with { A4Hz = Math.Clamp(Math.Round(profile.A4Hz) + step, TuningNote.LowestA4Hz, TuningNote.HighestA4Hz) });
                break;
            case 5:
                Stand.Memory.Change(now => now with { Unit = now.Unit == DisplayUnit.Cents ? DisplayUnit.Beats : DisplayUnit.Cents });
                break;
            default:
                Stand.Say("Enter does what is marked.");
                break;
        }
    }

    private static Pitch Moved(Pitch note, int step, int lowest, int highest) => Pitch.FromMidi(Math.Clamp(note.MidiNumber + step, lowest, highest));

    // Below the range it is "not told" again.
    private static Pitch? NextChange(PlayerProfile profile, int step)
    {
        int? now = profile.RegisterChange?.MidiNumber;
        int next = now is { } midi ? midi + step : (profile.LowestSung.MidiNumber + profile.HighestSung.MidiNumber) / 2;
        return next <= profile.LowestSung.MidiNumber || next > profile.HighestSung.MidiNumber ? null : Pitch.FromMidi(next);
    }

    private void Set(PlayerProfile profile) =>
        Stand.Memory.Change(now => now with { Profile = profile, Pair = now.Pair with { A4Hz = profile.A4Hz } });

    private void NextPlayer(int step)
    {
        if (_names.Length < 2)
        {
            Stand.Say("There is one player. n makes another.");
            return;
        }

        int index = Array.IndexOf(_names, Stand.PlayerName);
        string next = _names[(index + step + _names.Length) % _names.Length];
        try
        {
            if (Stand.Memory.Players?.Read(next) is { } player)
            {
                Take(player);
            }
        }
        catch (Exception problem) when (problem is InvalidDataException or IOException or UnauthorizedAccessException)
        {
            Stand.Say(problem.Message);
        }
    }

    private void Take(Player player)
    {
        Stand.Memory.Use(player);
        Stand.UseProfile();
        Stand.ReadPractice();
        ReadNames();
        Stand.Say($"{Shown(player.Name)}: {PlayerWords.Line(Stand)}");
    }

    private void AskName() => Stand.Ask(new TextBox("name of the new player:", name =>
    {
        if (!Player.IsName(name))
        {
            return new TextFault($"Letters, digits, spaces and hyphens, at most {Player.LongestName}.");
        }

        if (Stand.Memory.Players is not { } players)
        {
            return new TextFault("Nothing can be kept here: the data folder cannot be written.");
        }

        try
        {
            // Another window may have made one since the room was opened.
            if (players.Names.Contains(name, StringComparer.OrdinalIgnoreCase))
            {
                return new TextFault("There is a player of that name.");
            }

            Player player = Stand.Memory.Now.Player with { Name = name };
            players.Write(player);
            Take(player);
            return null;
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return new TextFault(problem.Message);
        }
    }));

    private void Capture()
    {
        if (_listener is not null)
        {
            EndCapture();
            Stand.Say("The microphone is off.");
            return;
        }

        double hz = EqualTemperament.FrequencyHz(HomeNote.MidiNumber, Stand.Profile.A4Hz);
        _heard.Clear();
        _captureUntil = Stand.NowSeconds + CaptureSeconds;
        _listener = new Listener(
            Stand.Parts.Audio, Stand.Parts.CreateTracker, Stand.Memory.Now.InputDevice,
            new DuetPrior(hz, hz * 1.5, true, false, Cents.Above(hz, -200), Cents.Above(hz, 200), Cents.Above(hz, 600), Cents.Above(hz, 800)));
        Stand.Say($"Play {Stand.Name(HomeNote)} and hold it for three seconds.");
    }

    private void TakeA4()
    {
        EndCapture();
        if (TuningNote.A4Hz(HomeNote, _heard) is { } a4)
        {
            Set(Stand.Profile with { A4Hz = a4 });
            Stand.Say(string.Create(CultureInfo.InvariantCulture, $"A4 is {a4:0.0} Hz, taken from your {Stand.Name(HomeNote)}."));
        }
        else
        {
            Stand.Say($"No {Stand.Name(HomeNote)} was heard long enough. Nearer to the microphone, one note, and i again.");
        }
    }

    private void EndCapture()
    {
        _listener?.Close();
        _listener = null;
    }
}
