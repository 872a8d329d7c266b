namespace BrassVox.App.Tui.Input;

/// <summary>Several lines being typed, read anew after each key. Space and Enter type here; what leaves the page is the room's.</summary>
internal sealed class TextPage
{
    /// <summary>Most characters a page holds.</summary>
    public const int Longest = 64_000;

    // Steps back are whole texts: so many of them, and never more characters than a few pages together.
    private const int MostSteps = 500;
    private const int MostKept = 4 * Longest;

    private readonly LinkedList<Step> _before = [];
    private readonly Stack<Step> _after = [];
    private readonly List<string> _lines;
    private Edit _last = Edit.None;
    private readonly Func<string, PageFault?> _read;
    private int _length;

    /// <summary>A page with a text on it, the caret at its beginning.</summary>
    /// <param name="text">The text.</param>
    /// <param name="read">Says what is wrong with a text; null when it is good.</param>
    public TextPage(string text, Func<string, PageFault?> read)
    {
        _read = read;
        _lines = [.. text.ReplaceLineEndings("\n").Split('\n').Select(Cleaned)];
        _length = text.Length;
        Fault = read(Text);
    }

    /// <summary>The lines; never none.</summary>
    public IReadOnlyList<string> Lines => _lines;

    /// <summary>The whole text, lines parted by line feeds.</summary>
    public string Text => string.Join('\n', _lines);

    /// <summary>Line of the caret, from 0.</summary>
    public int Line { get; private set; }

    /// <summary>Column of the caret, from 0 to the length of its line.</summary>
    public int Column { get; private set; }

    /// <summary>What is wrong with the text as it stands, or null.</summary>
    public PageFault? Fault { get; private set; }

    /// <summary>Types one key; what is no key of a page does nothing.</summary>
    /// <param name="press">The key.</param>
    public void Press(KeyPress press)
    {
        switch (press.Kind)
        {
            case PressKind.Enter:
                Break();
                break;
            case PressKind.Space:
                Insert(' ');
                break;
            case PressKind.Letter:
                Insert(press.Letter);
                break;
            case PressKind.Backspace when (Line, Column) != (0, 0):
                Remember(Edit.Removed);
                Move(-1);
                Remove();
                break;
            case PressKind.Delete when Column < _lines[Line].Length || Line + 1 < _lines.Count:
                Remember(Edit.Removed);
                Remove();
                break;
            case PressKind.Left:
                _last = Edit.None;
                Move(-1);
                break;
            case PressKind.Right:
                _last = Edit.None;
                Move(1);
                break;
            case PressKind.Up:
                _last = Edit.None;
                GoTo(Line - 1, Column);
                break;
            case PressKind.Down:
                _last = Edit.None;
                GoTo(Line + 1, Column);
                break;
            case PressKind.Home:
                _last = Edit.None;
                GoTo(Line, 0);
                break;
            case PressKind.End:
                _last = Edit.None;
                GoTo(Line, int.MaxValue);
                break;
        }
    }

    /// <summary>Puts the caret where the fault is.</summary>
    /// <returns>False when there is none, or it has no place.</returns>
    public bool GoToFault()
    {
        if (Fault is not { Line: > 0 } fault)
        {
            return false;
        }

        GoTo(fault.Line - 1, Math.Max(0, fault.Column - 1));
        return true;
    }

    /// <summary>Types a whole text where the caret is.</summary>
    /// <param name="text">The text; signs that could move a terminal's cursor are left out, tabs become spaces.</param>
    public void Paste(string text)
    {
        string[] pasted = [.. text.ReplaceLineEndings("\n").Split('\n').Select(Cleaned)];
        if (_length + text.Length > Longest)
        {
            return;
        }

        (string before, string after) = (_lines[Line][..Column], _lines[Line][Column..]);
        int column = pasted.Length == 1 ? Column + pasted[0].Length : pasted[^1].Length;
        pasted[0] = before + pasted[0];
        pasted[^1] += after;
        Remember(Edit.Pasted);
        _lines.RemoveAt(Line);
        _lines.InsertRange(Line, pasted);
        GoTo(Line + pasted.Length - 1, column);
        Changed();
    }

    /// <summary>Takes back what was typed last: a word, a row of deletions, a new line, a paste.</summary>
    /// <returns>False when there is nothing to take back.</returns>
    public bool Undo()
    {
        if (_before.Last is not { Value: var step })
        {
            return false;
        }

        _before.RemoveLast();
        _after.Push(Here());
        Restore(step);
        return true;
    }

    /// <summary>Does again what was taken back last.</summary>
    /// <returns>False when nothing was, or something was typed since.</returns>
    public bool Redo()
    {
        if (!_after.TryPop(out Step? step))
        {
            return false;
        }

        _before.AddLast(Here());
        Restore(step);
        return true;
    }

    private Step Here() => new(Text, Line, Column);

    private void Restore(Step step)
    {
        _lines.Clear();
        _lines.AddRange(step.Text.Split('\n'));
        GoTo(step.Line, step.Column);
        _last = Edit.None;
        Changed();
    }

    // Before a change: letters of one word, and deletions in a row, are one step.
    private void Remember(Edit edit)
    {
        _after.Clear();
        bool goesOn = edit == _last && edit is Edit.Typed or Edit.Removed;
        _last = edit;
        if (goesOn)
        {
            return;
        }

        _before.AddLast(Here());
        while (_before.Count > MostSteps || (_before.Count > 1 && (long)_before.Count * _length > MostKept))
        {
            _before.RemoveFirst();
        }
    }

    private static string Cleaned(string line) => string.Concat(line.Replace('\t', ' ').Where(c => !char.IsControl(c)));

    private void Insert(char letter)
    {
        if (_length < Longest && !char.IsControl(letter))
        {
            Remember(letter == ' ' ? Edit.Parted : Edit.Typed);
            _lines[Line] = _lines[Line].Insert(Column++, letter.ToString());
            Changed();
        }
    }

    private void Break()
    {
        if (_length < Longest)
        {
            Remember(Edit.Parted);
            string line = _lines[Line];
            _lines[Line] = line[..Column];
            _lines.Insert(Line + 1, line[Column..]);
            GoTo(Line + 1, 0);
            Changed();
        }
    }

    // The character at the caret, or the end of its line.
    private void Remove()
    {
        if (Column < _lines[Line].Length)
        {
            _lines[Line] = _lines[Line].Remove(Column, 1);
        }
        else if (Line + 1 < _lines.Count)
        {
            _lines[Line] += _lines[Line + 1];
            _lines.RemoveAt(Line + 1);
        }

        Changed();
    }

    private void Move(int by)
    {
        if (Column + by >= 0 && Column + by <= _lines[Line].Length)
        {
            Column += by;
        }
        else if (by < 0 && Line > 0)
        {
            GoTo(Line - 1, int.MaxValue);
        }
        else if (by > 0 && Line + 1 < _lines.Count)
        {
            GoTo(Line + 1, 0);
        }
    }

    private void GoTo(int line, int column)
    {
        Line = Math.Clamp(line, 0, _lines.Count - 1);
        Column = Math.Clamp(column, 0, _lines[Line].Length);
    }

    private void Changed()
    {
        string text = Text;
        _length = text.Length;
        Fault = _read(text);
    }

    private enum Edit
    {
        None,
        Typed,
        Parted,
        Removed,
        Pasted,
    }

    private sealed record Step(string Text, int Line, int Column);
}
