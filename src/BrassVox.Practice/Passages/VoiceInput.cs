using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>One tone of a text while it is read.</summary>
internal sealed class VoiceInput(string name)
{
    private bool _isNewBar = true;

    public string Name { get; } = name;

    public List<PassageNote> Notes { get; } = [];

    /// <summary>Whole bars so far.</summary>
    public int Bars { get; private set; }

    public long Tick { get; private set; }

    /// <summary>Length of the next note that names none.</summary>
    public long Length { get; set; } = Passage.TicksPerQuarter;

    public bool HasOpenBar => !_isNewBar;

    /// <summary>Where the open bar begins in its line.</summary>
    public int BarColumn { get; private set; } = 1;

    /// <summary>Where an open tie was written; null when there is none.</summary>
    public (int Line, int Column)? Tied { get; private set; }

    public void BeginLine() => _isNewBar = true;

    public void Rest(long length, bool isTied, int line, int column)
    {
        if (Tied is { } tie)
        {
            throw new PassageFault(tie.Line, tie.Column, "a tie leads to the same note, not to a rest.");
        }

        if (isTied)
        {
            throw new PassageFault(line, column, "a rest is not tied.");
        }

        Advance(length, column);
    }

    public void Note(long length, Pitch note, double cents, bool isTied, int line, int column)
    {
        if (Tied is { } tie)
        {
            PassageNote last = Notes[^1];
            if (last.Note != note || last.Cents != cents)
            {
                throw new PassageFault(tie.Line, tie.Column, $"a tie leads to the same note: {last.Note}, not {note}.");
            }

            Notes[^1] = last with { LengthTicks = last.LengthTicks + length };
        }
        else
        {
            Notes.Add(new PassageNote(Tick, length, note, cents));
        }

        Tied = isTied ? (line, column) : null;
        Advance(length, column);
    }

    public void EndBar()
    {
        Bars++;
        _isNewBar = true;
    }

    private void Advance(long length, int column)
    {
        BarColumn = _isNewBar ? column : BarColumn;
        _isNewBar = false;
        Tick += length;
    }
}
