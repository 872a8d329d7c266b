using System.Globalization;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Files;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>
/// The screens as a whole, without a terminal: which room lies on top, the keys that hold everywhere, the message line,
/// silence. A terminal feeds it keys and ticks and shows its canvas. One thread.
/// </summary>
internal sealed partial class MusicStand
{
    /// <summary>Fewest columns for the full layout.</summary>
    public const int LeastWidth = 80;

    /// <summary>Fewest rows for the full layout.</summary>
    public const int LeastHeight = 24;

    private const double MessageSeconds = 10;

    // News of the sound waits so long behind what was just said: long enough to read it.
    private const double ReadingSeconds = 3;

    private readonly Stack<Room> _rooms = new();
    private readonly List<(string What, Task Task)> _keeping = [];
    private readonly List<string> _lost = [];
    private readonly string? _lettersTrouble;
    private TextBox? _box;
    private double _sungSeconds;
    private double _sungAt;
    private string _message = "";
    private double _saidAt;
    private double _newsFrom;

    /// <summary>Lays out the stand; nothing sounds.</summary>
    /// <param name="parts">What it needs.</param>
    public MusicStand(StandParts parts)
    {
        Parts = parts;
        Desk = parts.Desk;
        Memory = parts.Memory;
        (Letterset, FileProblem? problem) = KeyMap.Load(parts.DataFolder);
        Desk.SetLevel(Memory.IsFirstRun ? Remembered.FirstLevelDb : Math.Min(Memory.Now.LevelDb, Remembered.LoudestStartDb));
        UseProfile();
        _rooms.Push(new StartRoom(this));
        if (Memory.IsFirstRun)
        {
            _rooms.Push(new WelcomeRoom(this));
        }
        else if (Memory.Now.OnStage)
        {
            // The run before ended on stage, in whatever way: its scene is marked, and nothing sounds.
            _rooms.Push(new StageRoom(this));
            Say("Back on stage where the last run ended. Tacet; Enter goes on.");
        }

        Top.Entered();
        if (problem is not null)
        {
            _lettersTrouble = $"{KeyMap.FileName}, line {problem.Line}, {problem.JsonPath}: {problem.Message} The usual letters hold.";
            Say(_lettersTrouble);
        }
    }

    /// <summary>Which letter stands for what.</summary>
    public KeyMap Letterset { get; }

    /// <summary>What the stand was given.</summary>
    public StandParts Parts { get; }

    /// <summary>The sound.</summary>
    public Desk Desk { get; }

    /// <summary>What is remembered from one run to the next.</summary>
    public Memory Memory { get; }

    /// <summary>What is wrong with settings, letters, folder or log, a sentence or two each; Start says all of it.</summary>
    public IReadOnlyList<string> Troubles => [.. new[] { Memory.Trouble, _lettersTrouble, PracticeTrouble }.OfType<string>()];

    /// <summary>The player.</summary>
    public PlayerProfile Profile => Memory.Now.Profile;

    /// <summary>The room on top.</summary>
    public Room Top => _rooms.Peek();

    /// <summary>Takes and body notes to be deleted when the program ends, the last one last.</summary>
    public List<Discarded> Discarded { get; } = [];

    /// <summary>True once the program is to end.</summary>
    public bool IsDone { get; private set; }

    /// <summary>True when it is to end because of Ctrl-C.</summary>
    public bool WasInterrupted { get; private set; }

    /// <summary>Seconds on the screen's clock, as of the last tick.</summary>
    public double NowSeconds { get; private set; }

    /// <summary>Length of the last tick in seconds.</summary>
    public double TickSeconds { get; private set; }

    /// <summary>The line above the keys; empty when there is nothing to say.</summary>
    public string Message => _message;

    /// <summary>True when the terminal shows no sign beyond 0x7E, whatever is set.</summary>
    public bool ShowsAsciiOnly { get; set; }

    /// <summary>Name of the colour theme: dark, light or none.</summary>
    public string Theme => Parts.NoColour ? "none" : Memory.Now.Theme;

    /// <summary>True while a line or a page is being typed.</summary>
    public bool IsTyping => _box is not null || Top.Page is not null;

    /// <summary>What is asked for while a line is being typed, with what is wrong so far; null otherwise.</summary>
    public string? Typing => _box is { } box ? $"{box.Label} {box.Fault}".TrimEnd()
        : Top.Page is { } page ? string.Create(CultureInfo.InvariantCulture, $"line {page.Line + 1} of {page.Lines.Count}. {Top.Findings[0]}")
        : null;

    /// <summary>A note in the player's own language.</summary>
    /// <param name="pitch">The note.</param>
    public string Name(Pitch pitch) => NoteNames.Of(pitch, Memory.Now.Naming);

    /// <summary>The note nearest to a frequency, in the player's own language.</summary>
    /// <param name="frequencyHz">Frequency in Hz, &gt; 0.</param>
    public string NameNear(double frequencyHz) => Name(NearestNote.Of(frequencyHz, Profile.A4Hz).Note);

    /// <summary>Where chance begins: the clock of the stand, so that a test's clock decides. At least 0.</summary>
    public int Seed() => (int)(Parts.Time.GetTimestamp() & int.MaxValue);

    /// <summary>Says something above the key line.</summary>
    /// <param name="message">One line.</param>
    public void Say(string message)
    {
        _message = Letterset.InWords(InThisRoom(message), isKeyLine: false);
        _saidAt = NowSeconds;
        _newsFrom = NowSeconds + ReadingSeconds;
    }

    /// <summary>A message from elsewhere with the advice that can be followed in the room on top: devices are chosen in Set-up.</summary>
    /// <param name="message">One line.</param>
    public string InThisRoom(string message) => message
        .Replace("choose another device", Top is SetUpRoom ? "choose another: Left, Right on its line" : "choose another in Set-up", StringComparison.Ordinal)
        .Replace("Choose another device", Top is SetUpRoom ? "Choose another: Left, Right on its line" : "Choose another in Set-up", StringComparison.Ordinal);

    /// <summary>What is said of a sound just begun: the words, or without a device that it cannot be heard.</summary>
    /// <param name="words">One line.</param>
    public string Heard(string words) => IsUnheard ? "No sound device: nothing can be heard. Set-up tries again." : words;

    /// <summary>True when the sound has been opened and there is no device: all runs, and nothing can be heard.</summary>
    public bool IsUnheard => Desk is { HasDevice: false, IsOpening: false };

    /// <summary>Says what is going on; news of it takes its place as soon as there is some.</summary>
    /// <param name="message">One line.</param>
    public void SayMeanwhile(string message)
    {
        Say(message);
        _newsFrom = NowSeconds;
    }

    /// <summary>Counts singing; true once when a block of five minutes is full. Five minutes without singing end a block.</summary>
    /// <param name="seconds">Seconds just sung.</param>
    public bool CountSungSeconds(double seconds)
    {
        if (NowSeconds - seconds - _sungAt >= VoiceLoad.RestSeconds)
        {
            _sungSeconds = 0;
        }

        bool before = _sungSeconds < VoiceLoad.FullBlockSeconds;
        _sungSeconds += seconds;
        _sungAt = NowSeconds;
        return before && _sungSeconds >= VoiceLoad.FullBlockSeconds;
    }

    /// <summary>Opens a line to type in; sound ramps out, so that Space may type.</summary>
    /// <param name="box">The line.</param>
    public void Ask(TextBox box)
    {
        Desk.Stop();
        _box = box;
    }

    /// <summary>Lays a room on top.</summary>
    /// <param name="room">The room.</param>
    public void Open(Room room)
    {
        if (!room.IsOverlay)
        {
            Desk.Stop();
        }

        _rooms.Push(room);
        room.Entered();
    }

    /// <summary>Leaves the room on top, except the first.</summary>
    public void Back()
    {
        if (_rooms.Count == 1)
        {
            Say("This is Start. q quits.");
            return;
        }

        if (!Top.IsOverlay)
        {
            Desk.Stop();
        }

        _rooms.Pop().Left();
        Top.Entered();
    }

    /// <summary>Leaves the room on top and lays another in its place.</summary>
    /// <param name="room">The room.</param>
    public void Replace(Room room)
    {
        Desk.Stop();
        _rooms.Pop().Left();
        _rooms.Push(room);
        room.Entered();
    }

    /// <summary>Ends the program.</summary>
    public void Quit()
    {
        Desk.Stop();
        IsDone = true;
    }

    /// <summary>Goes on elsewhere, such as keeping a take; the program waits for it before it ends, and says what failed.</summary>
    /// <param name="what">What is being kept, as the beginning of a sentence.</param>
    /// <param name="keeping">What goes on.</param>
    public void Await(string what, Task keeping) => _keeping.Add((what, keeping));

    /// <summary>Tells at the end, when the screens are gone, what was lost.</summary>
    /// <param name="what">What, a sentence.</param>
    public void Lose(string what) => _lost.Add(what);

    /// <summary>Says what could not be kept, as soon as that is known.</summary>
    private void HearOfKeeping()
    {
        for (int i = _keeping.Count - 1; i >= 0; i--)
        {
            (string what, Task task) = _keeping[i];
            if (!task.IsCompleted)
            {
                continue;
            }

            _keeping.RemoveAt(i);
            if (WhyNotKept(what, task) is { } why)
            {
                _lost.Add(why);
                Say(why);
            }
        }
    }

    private static string? WhyNotKept(string what, Task task) => task switch
    {
        { IsCompletedSuccessfully: false } => $"{what} could not be kept: {task.Exception?.GetBaseException().Message ?? "it was broken off."}",
        Task<TakeSaving> { Result: { } saving } => saving.Message ?? (saving.Record is null ? $"{what} could not be kept." : null),
        Task<string?> { Result: { } message } => $"{what} could not be kept: {message}",
        _ => null,
    };

    /// <summary>Ends when all that is being kept now is kept or has failed; never fails itself.</summary>
    public Task Kept() => Task.WhenAll(_keeping.Select(keeping => keeping.Task)).ContinueWith(_ => { }, TaskScheduler.Default);

    /// <summary>
    /// Ends whatever runs, keeps what was recorded and remembers the rest. Once, when the screens are gone, however they ended; waits.
    /// </summary>
    /// <param name="longest">Longest wait for what is still being kept.</param>
    /// <returns>What could not be kept, a sentence each.</returns>
    public IReadOnlyList<string> Close(TimeSpan longest)
    {
        foreach (Room room in _rooms)
        {
            room.Closing();
        }

        Kept().Wait(longest);
        _lost.AddRange(_keeping.Where(keeping => !keeping.Task.IsCompleted).Select(keeping => $"{keeping.What} was not kept within {longest.TotalSeconds:0} s."));
        HearOfKeeping();
        Memory.Save();
        if (Memory.Unsaved is { } unsaved)
        {
            _lost.Add(unsaved);
        }

        if (EmptyDiscarded() is { } undeleted)
        {
            _lost.Add(undeleted);
        }

        return [.. _lost.Distinct()];
    }

    /// <summary>Deletes for good what was deleted and not brought back. Once, at the end.</summary>
    /// <returns>Null, or why it could not be deleted.</returns>
    public string? EmptyDiscarded()
    {
        TakeRecord[] takes = [.. Discarded.Select(thing => thing.Take).OfType<TakeRecord>()];
        BodyNote[] notes = [.. Discarded.Select(thing => thing.Note).OfType<BodyNote>()];
        string? why = takes.Length > 0 ? Store().Delete(takes) : null;
        why ??= notes.Length > 0 ? Store().Delete(notes) : null;
        Discarded.Clear();
        return why;
    }

    /// <summary>Makes the engine that the profile asks for and opens the line.</summary>
    public void UseProfile()
    {
        PlayerProfile profile = Profile;
        double? lowestHz = Memory.Now.OctaveUp ? Memory.Now.SpeakerLowestHz : null;
        Desk.Channels = Math.Max(2, Memory.Now.ClickChannel);
        Desk.Use(
            () => lowestHz is { } hz ? new RaisedEngine(Parts.CreateEngine(profile), hz) : Parts.CreateEngine(profile),
            Memory.Now.OutputDevice);
    }

    /// <summary>False for a tone that the loudspeaker was heard not to carry. Where all is raised by octaves nothing is marked.</summary>
    /// <param name="hz">The tone in Hz.</param>
    /// <param name="playedHz">P of its pair in Hz.</param>
    public bool IsCarried(double hz, double playedHz) =>
        Memory.Now is not { SpeakerLowestHz: { } lowestHz } now || hz >= lowestHz || (now.OctaveUp && playedHz < lowestHz);

    /// <summary>Moves the clock on.</summary>
    /// <param name="nowSeconds">Seconds on a clock that never runs backwards.</param>
    public void Tick(double nowSeconds)
    {
        TickSeconds = Math.Max(0, nowSeconds - NowSeconds);
        NowSeconds = nowSeconds;
        Desk.Poll(nowSeconds);
        HearOfKeeping();
        if (nowSeconds - _saidAt > MessageSeconds)
        {
            _message = "";
        }

        if ((_message.Length == 0 || nowSeconds >= _newsFrom) && Desk.TakeNews() is { } news)
        {
            SayMeanwhile(news);
        }

        Guarded(TickRooms);
    }

    private void TickRooms()
    {
        if (Top.IsOverlay)
        {
            _rooms.ElementAt(1).Tick();
        }

        Top.Tick();
    }

    /// <summary>What a disk may do is said, whichever room met it; it never ends the screens.</summary>
    private void Guarded(Action what)
    {
        try
        {
            what();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            Say(problem.Message);
        }
    }
}
