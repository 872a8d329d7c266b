using System.Globalization;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Tui.Rooms;

/// <summary>What still fails: the error map, its weeks, and the takes behind it, newest first. Deleting waits until the program ends.</summary>
internal sealed partial class TakesRoom : Room
{
    private readonly TakeStore _store;
    private readonly TakeHandout _handout;
    private Task<(TakeListing Takes, IReadOnlyList<BodyNote> Between)> _reading;
    private (TakeListing Takes, IReadOnlyList<BodyNote> Between) _read = (new TakeListing([], []), []);
    private Task<string?>? _exporting;
    private string _exportFolder = "";
    private LoggedTake[] _all = [];
    private BodyNote[] _between = [];
    private IReadOnlyList<LeftOut> _leftOut = [];
    private TakesLine[] _shown = [];
    private ErrorMap _map = new([]);
    private WeekTrend? _trend;
    private TakeRecord? _under;
    private bool _isRead;
    private bool _isInMap;
    private int _row;
    private int _column;
    private int _chosen;
    private int _first;

    /// <summary>Opens the room and reads the takes, elsewhere.</summary>
    /// <param name="stand">The stand.</param>
    public TakesRoom(MusicStand stand)
        : base(stand)
    {
        _store = stand.Store();
        _handout = new TakeHandout(stand);
        _reading = Read();
        Keys =
        [
            new("Up", "the take, or row, above", [PressKind.Up], () => Step(-1)),
            new("Down", "the take, or row, below", [PressKind.Down], () => Step(1)),
            new("Left", "the register, or choice, before", [PressKind.Left], () => Aside(-1)),
            new("Right", "the register, or choice, after", [PressKind.Right], () => Aside(1)),
            new("Tab", "between map and list; the map chooses which takes are listed", [PressKind.Tab], Toggle),
            new("r", "replay the take's sound", ['r'], Replay),
            new("k", "keep this take under; again on another: lay that over it", ['k'], LayOver),
            new("n", "name a file for a handout of this take", ['n'], NameHandout),
            new("Del", "delete; real only when the program ends", [PressKind.Delete], Discard),
            new("z", "undo the last deletion", ['z'], Undo),
        ];
    }

    /// <inheritdoc/>
    public override string Title => "TAKES";

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices =>
    [
        .. Chosen is { } take
            ? [
                new Choice("look", () => Stand.Open(new TakeRoom(Stand, _store, take))),
                new Choice("replay", Replay),
                new Choice("older", () => Choose(_chosen + 1)),
                new Choice("newer", () => Choose(_chosen - 1)),
                new Choice(_under is null ? "keep under the next" : _under.Id == take.Take.Id ? "under no more" : "lay over the one kept under", LayOver),
                new Choice("send to Plan", SendToPlan),
                new Choice("export", Export),
                new Choice("handout", () => _handout.Write(Chosen!.Take, null, withSound: false)),
                new Choice("handout with sound", () => _handout.Write(Chosen!.Take, null, withSound: true)),
                new Choice("delete", Discard),
            ]
            : ChosenNote is null ? Array.Empty<Choice>()
            : [
                new Choice("delete", Discard),
                new Choice("older", () => Choose(_chosen + 1)),
                new Choice("newer", () => Choose(_chosen - 1)),
            ],
        .. _all.Length > 0 ? [new Choice(_isInMap ? "list" : "map", Toggle)] : Array.Empty<Choice>(),
        .. _all.Length > 0 ? [Players, Leave] : new[] { Leave, Players },
    ];

    /// <inheritdoc/>
    public override string Where => Chosen is { } take
        ? $"Takes: {TakeWords.When(take.Take)}, {take.Take.ExerciseName}. {Choices[MarkedIndex].Label} is marked."
        : ChosenNote is { } note ? $"Takes: a body note between takes, {_shown[_chosen].When}, {BodyTags.Name(note.Tag)}. {Choices[MarkedIndex].Label} is marked."
        : "Takes: none kept yet. Enter does what is marked.";

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings =>
    [
        .. Cell is { } cell ? [$"{cell.Words(Stand.Memory.Now.Naming)}, {cell.Takes} takes."] : Array.Empty<string>(),
        .. NotJudged.Length > 0 ? [NotJudged] : Array.Empty<string>(),
    ];

    /// <inheritdoc/>
    public override NotedTake NotedTake => Chosen is { } take ? NotedTake.Of(take.Take.Id, TakeWords.When(take.Take)) : NotedTake.None;

    private Choice Leave => new("leave", Stand.Back);

    private Choice Players => new("players", () => Stand.Open(new PlayersRoom(Stand)));

    private LoggedTake? Chosen => _chosen < _shown.Length ? _shown[_chosen].Take : null;

    private BodyNote? ChosenNote => _chosen < _shown.Length ? _shown[_chosen].Note : null;

    private string NotJudged => LeftOut.NotJudgedWords(_leftOut);

    private ErrorCell? Cell
    {
        get
        {
            IReadOnlyList<IntervalFamily> families = _map.Families;
            IReadOnlyList<PlayedRegister> registers = _map.Registers;
            return _row < families.Count && _column < registers.Count ? _map.Find(families[_row], registers[_column]) : null;
        }
    }

    /// <inheritdoc/>
    public override void Entered()
    {
        if (_isRead)
        {
            _reading = Read();
            _isRead = false;
        }
    }

    /// <inheritdoc/>
    public override void Tick()
    {
        _handout.Tick();
        if (_exporting is { IsCompleted: true } exporting)
        {
            // What goes wrong is told by the stand.
            _exporting = null;
            if (exporting is { IsCompletedSuccessfully: true, Result: null })
            {
                Stand.Say($"Sound and record copied to {_exportFolder}");
            }
        }

        if (!_isRead && _reading.IsCompleted)
        {
            _isRead = true;
            if (!_reading.IsCompletedSuccessfully)
            {
                Stand.Say($"The takes cannot be read: {_reading.Exception?.GetBaseException().Message}");
                return;
            }

            _read = _reading.Result;
            Show();
            if (_read.Takes.Problems is { Count: > 0 } problems)
            {
                Stand.Say(problems.Count == 1
                    ? problems[0]
                    : string.Create(CultureInfo.InvariantCulture, $"{problems.Count} things to see to among the takes: {problems[0]}"));
            }
        }
    }

    /// <summary>A tag was noted.</summary>
    /// <param name="tag">The tag.</param>
    /// <param name="takeId">The take; null for none.</param>
    public void Noted(BodyTag tag, string? takeId)
    {
        if (takeId is null)
        {
            Entered();
            return;
        }

        _all = [.. _all.Select(take => take.Take.Id == takeId ? take with { Body = [.. take.Body, tag] } : take)];
        Filter();
    }

    private Task<(TakeListing Takes, IReadOnlyList<BodyNote> Between)> Read()
    {
        TakeStore store = _store;
        var filter = new TakeFilter(Stand.PlayerName);
        Task kept = Stand.Kept();
        return Task.Run(async () =>
        {
            await kept.ConfigureAwait(false);
            return (store.List(filter), store.NotesBetween(filter));
        });
    }

    private void Show()
    {
        HashSet<string> discarded = [.. Stand.Discarded.Select(thing => thing.Take?.Id).OfType<string>()];
        HashSet<BodyNote> discardedNotes = [.. Stand.Discarded.Select(thing => thing.Note).OfType<BodyNote>()];
        _all = [.. _read.Takes.Takes.Where(take => !discarded.Contains(take.Take.Id)).Reverse()];
        _between = [.. _read.Between.Where(note => !discardedNotes.Contains(note))];
        _map = ErrorMap.Of(_all);
        _leftOut = LeftOut.Of(_all);
        if (Cell is null && _map.Cells.MaxBy(cell => cell.Takes) is { } most)
        {
            _row = _map.Families.ToList().IndexOf(most.Family);
            _column = _map.Registers.ToList().IndexOf(most.Register);
        }

        Filter();
    }

    /// <summary>In the map the list holds the takes of the cell.</summary>
    private void Filter()
    {
        _trend = Cell is { } cell ? WeekTrend.Of(cell, _all, Stand.Parts.Time.LocalTimeZone) : null;
        _shown = !_isInMap || Cell is not { } chosen ? TakesLine.Of(_all, _between) : TakesLine.Of(
            _all.Where(take => !take.Take.IsOfPassage && IntervalFamilies.Of(take.Take.Played, take.Take.Sung) == chosen.Family && PlayedRegister.Of(take.Take.Played) == chosen.Register), []);
        _chosen = Math.Clamp(_chosen, 0, Math.Max(0, _shown.Length - 1));
    }

    private void Toggle()
    {
        if (_map.Cells.Count == 0)
        {
            Stand.Say("There is no map before the first take that counts.");
            return;
        }

        _isInMap = !_isInMap;
        Filter();
        Stand.Say(_isInMap ? "Arrows choose a cell; the list holds its takes." : "Up and Down choose a take.");
    }

    private void Step(int step)
    {
        if (_shown.Length == 0)
        {
            MarkNext(step);
            return;
        }

        if (!_isInMap)
        {
            Choose(_chosen + step);
            return;
        }

        int row = _row + step;
        if (row < 0 || row >= _map.Families.Count)
        {
            Stand.Say("No interval beyond this one has takes.");
            return;
        }

        // Every row has a cell; the one nearest to where one was.
        IReadOnlyList<PlayedRegister> registers = _map.Registers;
        _column = Enumerable.Range(0, registers.Count).Where(column => _map.Find(_map.Families[row], registers[column]) is not null).MinBy(column => Math.Abs(column - _column));
        _row = row;
        _chosen = 0;
        Filter();
    }

    private void Aside(int step)
    {
        if (!_isInMap)
        {
            MarkNext(step);
            return;
        }

        IReadOnlyList<PlayedRegister> registers = _map.Registers;
        int column = _column + step;
        while (column >= 0 && column < registers.Count && _map.Find(_map.Families[_row], registers[column]) is null)
        {
            column += step;
        }

        if (column < 0 || column >= registers.Count)
        {
            Stand.Say("No register beyond this one has takes of this interval.");
            return;
        }

        _column = column;
        _chosen = 0;
        Filter();
    }

    private void Choose(int index)
    {
        if (index < 0 || index >= _shown.Length)
        {
            Stand.Say(_shown.Length == 0 ? "No take is kept here yet." : index < 0 ? "This is the newest." : "This is the oldest.");
            return;
        }

        _chosen = index;
    }

    private void Replay()
    {
        if (Chosen is { } take)
        {
            TakeWords.Replay(Stand, _store, take.Take);
        }
        else
        {
            Stand.Say("No take is chosen.");
        }
    }

    private void NameHandout()
    {
        if (Chosen is { } take)
        {
            _handout.Name(take.Take);
        }
        else
        {
            Stand.Say("No take is chosen.");
        }
    }

    // Once to keep a take under, once more on another to see both; on itself it takes the first back.
    private void LayOver()
    {
        if (Chosen is not { Take: { } take })
        {
            Stand.Say("No take is chosen.");
        }
        else if (_under is null)
        {
            _under = take;
            Stand.Say($"{TakeWords.When(take)} is kept under. k on another take lays that over it; k again here leaves it.");
        }
        else if (_under.Id == take.Id)
        {
            _under = null;
            Stand.Say("No take is kept under any more.");
        }
        else
        {
            Stand.Open(new TwoTakesRoom(Stand, _store, take, _under));
        }
    }

    private void SendToPlan()
    {
        TakeRecord take = Chosen!.Take;
        PracticeLog log = Stand.Log;
        string player = Stand.PlayerName;
        DateTimeOffset now = Stand.Parts.Time.GetUtcNow();
        Stand.Await("The wish", Task.Run(() => log.Wish(player, take.ExerciseId, now)));
        Stand.Say($"{take.Heading} is on the plan until it is next played.");
    }

    private void Export()
    {
        TakeRecord take = Chosen!.Take;
        string folder = Path.Combine(Stand.Parts.DataFolder, "exported");
        TakeStore store = _store;
        _exporting = Task.Run(() => store.Export(take, folder));
        _exportFolder = folder;
        Stand.Await("The copy of the take", _exporting);
        Stand.Say("The take is being copied.");
    }

    private void Discard()
    {
        if (Chosen is null && ChosenNote is null)
        {
            Stand.Say("No take is chosen.");
            return;
        }

        Stand.Discarded.Add(new Discarded(Chosen?.Take, ChosenNote));
        Show();
        Stand.Say("Deleted when the program ends. z brings it back.");
    }

    private void Undo()
    {
        if (Stand.Discarded.Count == 0)
        {
            Stand.Say("Nothing to undo.");
            return;
        }

        string what = Stand.Discarded[^1].Take is null ? "body note" : "take";
        Stand.Discarded.RemoveAt(Stand.Discarded.Count - 1);
        Show();
        Stand.Say($"The {what} is back.");
    }
}
