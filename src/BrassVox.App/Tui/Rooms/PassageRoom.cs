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

    private Passage Sounding => _passage!.WithSungOctaves(_octaves);

    private void Read()
    {
        _report = PassageReport.Of(Sounding, Stand.Profile, Stand.Memory.Now.SpeakerLowestHz ?? UntestedLowestHz);
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
}
