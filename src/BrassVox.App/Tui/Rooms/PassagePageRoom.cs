using System.Globalization;
using System.Text;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Input;
using BrassVox.Practice.Passages;

namespace BrassVox.App.Tui.Rooms;

/// <summary>A passage of one's own, typed as text: read after each key, kept as it stands, opened once it is whole.</summary>
internal sealed class PassagePageRoom : Room
{
    private const double KeepAfterSeconds = 2;
    private const int FirstRow = 2;
    private const int NumberWidth = 5;
    private const string Blank = """
        # P is played, S is sung; whole bars, parted by |
        # as in Bb2/4 F3/2. tied G3/1~ rest r/4, triplet 3:2( F3/8 G3 A3 )
        title: My passage
        time: 4/4
        tempo: 60
        P:
        S:
        """;

    private readonly OwnPassages _own;
    private string _name;
    private bool _isNew;
    private readonly Action<string, Passage?> _taken;
    private readonly TextPage _page;
    private readonly string _first;
    private string _kept;
    private string? _refused;
    private double _changedAt = double.NaN;

    /// <summary>Lays out the page; nothing sounds and nothing is written yet.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="own">The player's passages.</param>
    /// <param name="name">Which of them; null for a new one.</param>
    /// <param name="taken">Takes the name and the passage once it is left whole; no passage where all of it was deleted.</param>
    public PassagePageRoom(MusicStand stand, OwnPassages own, string? name, Action<string, Passage?> taken)
        : base(stand)
    {
        _own = own;
        _taken = taken;
        string? text = name is null ? null : own.Text(name);
        _name = name ?? own.NewName();
        _isNew = name is null;
        _first = text ?? Blank.ReplaceLineEndings("\n");
        _page = new TextPage(_first, Read);
        _kept = _first;
        if (text is null)
        {
            _page.Press(PressKind.Down);
            _page.Press(PressKind.Down);
            _page.Press(PressKind.End);
        }
    }

    /// <inheritdoc/>
    public override string Title => "PASSAGE, AS TEXT";

    /// <inheritdoc/>
    public override TextPage Page => _page;

    /// <inheritdoc/>
    public override IReadOnlyList<Choice> Choices => [new("done", Done)];

    /// <inheritdoc/>
    public override IReadOnlyList<RoomKey> Keys =>
    [
        new("Esc, PgDn", "done: opens it when it reads; again: leaves it as it stands", [PressKind.Escape, PressKind.PageDown], Done),
        new("Tab", "to the fault", [PressKind.Tab], ToFault),
        new("^U", "undo what was typed last", [PressKind.Undo], () => Step(_page.Undo(), "Nothing to undo.")),
        new("^R", "do again what was undone", [PressKind.Redo], () => Step(_page.Redo(), "Nothing to do again.")),
    ];

    /// <inheritdoc/>
    public override string Where => string.Create(CultureInfo.InvariantCulture,
        $"Passage as text, line {_page.Line + 1} of {_page.Lines.Count}, column {_page.Column + 1}. {State()}");

    /// <inheritdoc/>
    public override IReadOnlyList<string> Findings => [State()];

    /// <inheritdoc/>
    public override void Tick()
    {
        if (_page.Text == _kept)
        {
            _changedAt = double.NaN;
        }
        else if (double.IsNaN(_changedAt))
        {
            _changedAt = Stand.NowSeconds;
        }
        else if (Stand.NowSeconds - _changedAt > KeepAfterSeconds)
        {
            Keep();
        }
    }

    /// <inheritdoc/>
    public override void Silenced() => Keep();

    /// <inheritdoc/>
    public override void Closing()
    {
        if (!Keep())
        {
            Stand.Lose($"{_own.Folder}: the passage being written cannot be kept there; what was typed last is lost.");
        }
    }

    /// <inheritdoc/>
    public override void Left() => Keep();

    /// <inheritdoc/>
    public override void Draw(Canvas canvas)
    {
        Stand.DrawHeader(canvas, _name, string.Create(CultureInfo.InvariantCulture, $"line {_page.Line + 1}, column {_page.Column + 1}"));
        int foot = canvas.Height - 4;
        int rows = foot - FirstRow;
        int columns = canvas.Width - NumberWidth - 1;
        int top = Math.Clamp(_page.Line - (rows / 2), 0, Math.Max(0, _page.Lines.Count - rows));
        int left = Math.Max(0, _page.Column - columns + (columns / 4));
        for (int row = 0; row < rows && top + row < _page.Lines.Count; row++)
        {
            DrawLine(canvas, FirstRow + row, top + row, left, columns);
        }

        canvas.Rule(foot);
        canvas.Paragraph(1, foot + 1, canvas.Width - 2, State());
        DrawKeyLine(canvas, 0, "Tab to the fault   PgDn, Esc done   ^U undo   ^T tacet   F1 keys");
    }

    private void DrawLine(Canvas canvas, int y, int line, int left, int columns)
    {
        bool isFaulty = _page.Fault is { } fault && fault.Line == line + 1;
        canvas.WriteRight(NumberWidth - 2, y, (line + 1).ToString(CultureInfo.InvariantCulture), Ink.Quiet);
        canvas.Put(NumberWidth - 1, y, isFaulty ? '!' : ' ');
        string text = _page.Lines[line];
        string shown = text.Length > left ? text[left..Math.Min(text.Length, left + columns)] : "";
        canvas.Write(NumberWidth, y, shown, text.StartsWith('#') ? Ink.Quiet : Ink.Text);
        if (isFaulty && _page.Fault!.Column > left && _page.Fault.Column - left <= columns)
        {
            int x = _page.Fault.Column - 1 - left;
            canvas.Put(NumberWidth + x, y, x < shown.Length && shown[x] != ' ' ? shown[x] : '_', Ink.Marked);
        }

        if (line == _page.Line)
        {
            int x = _page.Column - left;
            canvas.Put(NumberWidth + x, y, x < shown.Length ? shown[x] == ' ' ? '_' : shown[x] : '_', Ink.Marked);
        }
    }

    private string State() => _page.Fault switch
    {
        null => "It reads.",
        { Line: 0 } fault => fault.Message,
        var fault => string.Create(CultureInfo.InvariantCulture, $"line {fault.Line}, column {fault.Column}: {fault.Message}"),
    };

    private PageFault? Read(string text)
    {
        PassageProblem? problem = PassageFile.Parse(Encoding.UTF8.GetBytes(text), _name).Problem;
        return problem is null ? null : new PageFault(problem.Message, problem.Line, problem.Column);
    }

    private void Step(bool isDone, string whyNot)
    {
        if (!isDone)
        {
            Stand.Say(whyNot);
        }
    }

    private void ToFault()
    {
        if (!_page.GoToFault())
        {
            Stand.Say(State());
        }
    }

    private void Done()
    {
        string text = _page.Text;
        if (text == _first && _page.Fault is not null)
        {
            Stand.Back();
            return;
        }

        if (text.AsSpan().IsWhiteSpace() && Remove())
        {
            Stand.Back();
            _taken(_name, null);
            return;
        }

        bool isKept = Keep();
        Passage? passage = PassageFile.Parse(Encoding.UTF8.GetBytes(text), _name).Passage;
        if (passage is null && _refused != text)
        {
            _refused = text;
            _page.GoToFault();
            Stand.Say($"Not whole yet; the caret stands at the fault. Esc or PgDn again leaves it as it stands{(isKept ? ", kept" : "")}.");
            return;
        }

        if (!isKept && _refused != text)
        {
            _refused = text;
            return;
        }

        Stand.Back();
        if (passage is not null)
        {
            _taken(_name, passage);
        }
        else if (isKept)
        {
            Stand.Say($"Kept as {_name}; the passage choice comes back to it.");
        }
    }

    // A page that was emptied and left is no passage any more.
    private bool Remove()
    {
        try
        {
            if (!_isNew)
            {
                _own.Remove(_name);
            }

            _kept = _page.Text;
            return true;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private bool Keep()
    {
        string text = _page.Text;
        if (text == _kept)
        {
            return true;
        }

        try
        {
            if (_isNew)
            {
                _name = _own.KeepUnnamed(text);
                _isNew = false;
            }
            else
            {
                _own.Keep(_name, text);
            }

            _kept = text;
            return true;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            _changedAt = Stand.NowSeconds;
            Stand.Say($"{_own.Folder}: it cannot be written: {error.Message} The text stays here; Esc again leaves it unkept.");
            return false;
        }
    }
}
