using System.Globalization;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>From page to stage: a passage as figured rows, practised in loops, its help withdrawn turn by turn.</summary>
internal sealed partial class PassageRoom : Room
{
    private const double TempoStep = 5;
    private const string ShippedTitle = "Two Breaths, One Pipe";

    private readonly Dictionary<(VoiceRole Role, string Label), NoteResult> _last = [];
    private readonly OwnPassages _own;
    private Passage? _passage;
    private string? _open;
    private string? _passedBy;
    private PassageReport? _report;
    private string _trouble = "";
    private int _moment;
    private int _fromBar = 1;
    private int _toBar;
    private bool _loopIsOpen;
    private int _octaves;
    private double _tempo = 80;
    private PlayerRole _role;
    private HelpLadder _help = new();
    private int _turns;

    /// <summary>Opens the room with the shipped passage; nothing sounds.</summary>
    /// <param name="stand">The stand.</param>
    public PassageRoom(MusicStand stand)
        : base(stand)
    {
        Keys =
        [
            new("Left", "moment before", [PressKind.Left], () => Step(-1)),
            new("Right", "moment after", [PressKind.Right], () => Step(1)),
            new("Tab", "next moment that asks for care", [PressKind.Tab], NextCare),
            new(",", "slower, 40 % at least", [','], () => ChangeTempo(-TempoStep)),
            new(".", "faster, 110 % at most", ['.'], () => ChangeTempo(TempoStep)),
            new("r", "loop: from this bar; again: to this bar; again: all", ['r'], Loop),
            new("v", "octave of the voice: as written, higher, lower", ['v'], NextOctave),
            new("o", "you play and sing, only play, only sing", ['o'], NextRole),
            new("z", "one help back", ['z'], HelpBack),
            new("n", "type a passage of your own; an own one that is open: change it", ['n'], Write),
        ];
        _own = new OwnPassages(stand.Parts.DataFolder);
        if (stand.Memory.Now.Passage is { } last)
        {
            PassageLoad load = LoadOf(last);
            if (load.Passage is not null)
            {
                Take(load, last);
                Recall();
                return;
            }

            stand.Say($"{load.Problem} {ShippedTitle} is open instead.");
            Take(LoadOf(null), null);
            return;
        }

        Take(LoadOf(null), null);
        Recall();
    }

    // Loop, tempo and octave of the voice as they were left; a passage that is shorter takes what fits.
    private void Recall()
    {
        Remembered now = Stand.Memory.Now;
        _tempo = now.PassageTempo;
        if (_passage is not { } passage)
        {
            return;
        }

        if (now.PassageToBar >= 1 && now.PassageFromBar <= passage.Bars.Count)
        {
            _fromBar = now.PassageFromBar;
            _toBar = Math.Clamp(now.PassageToBar, _fromBar, passage.Bars.Count);
        }

        if (passage.Sung.All(note => note.Note.Octave + now.PassageOctaves is >= 0 and <= 8))
        {
            _octaves = now.PassageOctaves;
            Read();
        }
    }

    /// <inheritdoc/>
    public override void Left()
    {
        Remember();
        Stand.Memory.Save();
    }

    /// <inheritdoc/>
    public override void Silenced() => Remember();

    private void Remember() => Stand.Memory.Change(now => now with
    {
        Passage = _open,
        PassageTempo = _tempo,
        PassageOctaves = _octaves,
        PassageFromBar = _fromBar,
        PassageToBar = _toBar,
    });

    /// <inheritdoc/>
    public override string Title => "PASSAGE";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override string Where => _report is { Moments.Count: > 0 } report
        ? $"Passage: {_passage!.Title}, at {report.Moments[_moment].Place}, {LoopWords()}, {TempoWords()}. {Choices[MarkedIndex].Label} is marked."
        : $"Passage: {_trouble}";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => _report is { Moments.Count: > 0 } report ? [.. AtLines(report.Moments[_moment])] : [_trouble];

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => _passage is null
        ? [new Choice("type your own", Write), new Choice("another passage", Another), new Choice("from a file", AskFile), new Choice("leave", Stand.Back)]
        :
        [
            new Choice("play the loop", () => Play(false)),
            new Choice("hear it, then play it", () => Play(true)),
            new Choice("whole passage", WholePassage),
            new Choice(IsOwn ? "change the text" : "type your own", Write),
            new Choice("another passage", Another),
            new Choice("from a file", AskFile),
            new Choice("leave", Stand.Back),
        ];

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        if (_passage is null || _report is null)
        {
            Stand.DrawHeader(canvas, "nothing open");
            canvas.Paragraph(1, 3, canvas.Width - 2, _trouble);
            canvas.Paragraph(1, 6, canvas.Width - 2, "n types one of your own; a file may be our own text, MusicXML or MIDI.");
            DrawMarkedLine(canvas, "n type your own   Esc back   Space tacet   h keys");
            return;
        }

        DrawPassage(canvas, _passage, _report);
    }

    private bool IsOwn => _open is { } open && OwnPassages.IsName(open);

    private PassageLoad LoadOf(string? name) => name switch
    {
        null => ShippedPassages.Load(ShippedPassages.First, Stand.Profile),
        _ when OwnPassages.IsName(name) => _own.Read(name),
        _ => PassageFile.Read(name),
    };

    // A passage, and what to remember it by: the name of an own one, the path of a file, null for the shipped one.
    private void Take(PassageLoad load, string? open)
    {
        if (load.Passage is not { } passage || passage.Bars.Count == 0)
        {
            _trouble = load.Problem?.ToString() ?? "there is nothing in it.";
            if (_passage is not null)
            {
                Stand.Say(_trouble);
            }

            return;
        }

        _passage = passage;
        _open = open;
        _passedBy = null;
        Mark(0);
        _octaves = 0;
        _fromBar = 1;
        _toBar = Math.Min(4, passage.Bars.Count);
        _moment = 0;
        _help = new HelpLadder();
        _turns = 0;
        _last.Clear();
        Read();
        if (passage.Remarks.Count > 0)
        {
            Stand.Say(string.Join(' ', passage.Remarks));
        }
    }

    private Passage Sounding => _passage!.WithSungOctaves(_octaves);

    private void Read()
    {
        _report = PassageReport.Of(Sounding, Stand.Profile, Stand.Memory.Now.SpeakerLowestHz ?? 0);
        _moment = Math.Clamp(_moment, 0, Math.Max(0, _report.Moments.Count - 1));
    }

    private void Play(bool hearFirst)
    {
        var turn = new PassageTurn(_fromBar, _toBar, _help.Step, hearFirst);
        ResolvedExercise resolved;
        try
        {
            resolved = PassageExercise.Resolve(Sounding, Stand.Profile, turn, new TakeOptions(_role, TempoPercent: _tempo));
        }
        catch (ArgumentException)
        {
            Stand.Say($"Bars {_fromBar} to {_toBar} hold no note; r sets another loop.");
            return;
        }

        Stand.Open(new PlayAlongRoom(Stand, resolved, _help.Step == HelpStep.Nothing ? ClickUse.CountIn : ClickUse.Throughout, Revealed));
    }

    private void WholePassage()
    {
        _fromBar = 1;
        _toBar = _passage!.Bars.Count;
        Play(false);
    }

    private void Revealed(JudgedTake take)
    {
        _turns++;
        foreach (NoteResult note in take.Result.Notes)
        {
            _last[(note.Role, note.Label)] = note;
        }

        HelpLadder before = _help;
        _help = _help.After(take.Result.AsAsked);
        if (_help.Step != before.Step)
        {
            Stand.Say($"Two clean turns: from here with {HelpWords(_help.Step)}.");
        }
    }

    private void Step(int by)
    {
        if (_report is { } report)
        {
            int next = Math.Clamp(_moment + by, 0, Math.Max(0, report.Moments.Count - 1));
            if (next == _moment)
            {
                Stand.Say(by < 0 ? "This is the first moment." : "This is the last moment.");
            }

            _moment = next;
        }
    }

    private void NextCare()
    {
        if (_report is not { } report || report.Moments.Count == 0)
        {
            return;
        }

        int count = report.Moments.Count;
        int[] next = [.. Enumerable.Range(1, count).Select(i => (_moment + i) % count).Where(i => report.Moments[i].Cares.Count > 0)];
        if (next.Length == 0)
        {
            Stand.Say("Nothing here asks for special care.");
            return;
        }

        _moment = next[0];
    }

    private void ChangeTempo(double by)
    {
        _tempo = Math.Clamp(_tempo + by, TakeOptions.SlowestPercent, TakeOptions.FastestPercent);
        Stand.Say($"Tempo {TempoWords()}.");
    }

    private void Loop()
    {
        if (_passage is not { } passage || _report is not { Moments.Count: > 0 } report)
        {
            return;
        }

        int bar = report.Moments[_moment].Bar;
        if (_loopIsOpen)
        {
            (_fromBar, _toBar) = (Math.Min(_fromBar, bar), Math.Max(_fromBar, bar));
            _loopIsOpen = false;
        }
        else if (_fromBar == bar && _toBar == passage.Bars.Count)
        {
            _fromBar = 1;
        }
        else
        {
            (_fromBar, _toBar) = (bar, passage.Bars.Count);
            _loopIsOpen = true;
        }

        _help = _help with { CleanInRow = 0 };
        Stand.Say(_loopIsOpen ? $"The loop begins at bar {_fromBar}; r again on its last bar." : $"The loop is {LoopWords()}.");
    }

    private void NextOctave()
    {
        if (_passage is not { } passage)
        {
            return;
        }

        int next = _octaves switch { 0 => 1, 1 => -1, _ => 0 };
        if (passage.Sung.Any(note => note.Note.Octave + next is < 0 or > 8))
        {
            next = 0;
        }

        _octaves = next;
        _last.Clear();
        Read();
        int outside = Sounding.Sung.Count(note => !Stand.Profile.CanSing(note.Note));
        Stand.Say(string.Create(CultureInfo.InvariantCulture, $"The voice {OctaveWords()}: {outside} of its {passage.Sung.Count} notes lie outside your range; what is made changes with it."));
    }

    private void NextRole()
    {
        _role = (PlayerRole)(((int)_role + 1) % 3);
        Stand.Say(_role switch
        {
            PlayerRole.Plays => "You play; the voice is synthesised.",
            PlayerRole.Sings => "You sing; the played tone is synthesised.",
            _ => "You play and sing.",
        });
    }

    private void HelpBack()
    {
        if (_help.Step > HelpStep.BothTones)
        {
            _help = new HelpLadder(_help.Step - 1);
        }

        Stand.Say($"With {HelpWords(_help.Step)}.");
    }

    private void AskFile() => Stand.Ask(new TextBox("Path of a passage (text, MusicXML, MIDI):", text =>
    {
        PassageLoad load = PassageFile.Read(text);
        if (load.Passage is null)
        {
            // The path stands in the line already: its last part leaves room for what is wrong.
            return new TextFault((load.Problem! with { File = Path.GetFileName(text) is { Length: > 0 } name ? name : text }).ToString());
        }

        Take(load, Path.GetFullPath(text));
        return null;
    }));

    private void Write() => Edit(IsOwn ? _open : null);

    private void Edit(string? name) => Stand.Open(new PassagePageRoom(Stand, _own, name, (kept, passage) =>
    {
        if (passage is null)
        {
            Take(LoadOf(null), null);
            Stand.Say($"{kept} was empty and is gone.");
            return;
        }

        Take(new PassageLoad(passage, null), kept);
        if (passage.Remarks.Count == 0)
        {
            Stand.Say($"Kept as {kept}.");
        }
    }));

    // Round: the shipped one, then the player's own in the order they were begun. One that does not read opens as text.
    private void Another()
    {
        string?[] all = [null, .. _own.Names];
        if (all.Length == 1 && _open is null)
        {
            Stand.Say("There is no other passage yet; n types one of your own.");
            return;
        }

        string? next = all[(Array.IndexOf(all, _passedBy ?? _open) + 1) % all.Length];
        PassageLoad load = LoadOf(next);
        if (load.Passage is null && next is not null)
        {
            _passedBy = next;
            Edit(next);
            Stand.Say(load.Problem!.ToString());
            return;
        }

        Take(load, next);
    }

    private string LoopWords() => _fromBar == _toBar ? $"bar {_fromBar}" : $"bars {_fromBar}-{_toBar}";

    private string TempoWords() => string.Create(CultureInfo.InvariantCulture, $"{_tempo:0} %");

    private string OctaveWords() => _octaves switch { 0 => "as written", 1 => "an octave higher", _ => "an octave lower" };

    private static string HelpWords(HelpStep step) => step switch
    {
        HelpStep.BothTones => "both tones",
        HelpStep.OtherTone => "the other tone",
        HelpStep.Cue => "the first sung note and the click",
        HelpStep.Click => "the click",
        _ => "nothing after the count",
    };
}
