using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;

namespace BrassVox.App.Tui.Rooms;

/// <summary>The sentence a player finishes before looking, word by word.</summary>
internal sealed class Sentence
{
    private readonly List<(string Subject, string[] Words, Action<int> Set)> _lines = [];
    private readonly int[] _chosen;
    private SaidPitch? _played;
    private SaidPitch? _sung;
    private SaidPair? _pair;
    private SaidLine _line;
    private Sureness _sure;

    /// <summary>An empty sentence for what was asked.</summary>
    /// <param name="exercise">The exercise.</param>
    public Sentence(ResolvedExercise exercise)
    {
        bool asksPlayed = exercise.Steps.Any(step => step.Task is PlayTask { Played: not null });
        bool asksSung = exercise.Steps.Any(step => step.Task is PlayTask { Sung: not null });
        string[] places = ["low", "true", "high"];
        if (asksPlayed)
        {
            _lines.Add(("My played tone was", places, word => _played = (SaidPitch)word));
        }

        if (asksSung)
        {
            _lines.Add(("My sung tone was", places, word => _sung = (SaidPitch)word));
        }

        if (asksPlayed && asksSung)
        {
            _lines.Add(("The pair", ["stood still", "beat", "was grainy"], word => _pair = (SaidPair)word));
        }

        _lines.Add(("It", ["held", "wandered", "drifted"], word => _line = (SaidLine)word));
        _lines.Add(("I am", ["guessing", "fairly sure", "certain"], word => _sure = (Sureness)word));
        _chosen = new int[_lines.Count];
        Array.Fill(_chosen, -1);
    }

    /// <summary>How many words the sentence wants.</summary>
    public int Count => _lines.Count;

    /// <summary>The line now open.</summary>
    public int Line { get; private set; }

    /// <summary>The whole sentence, or null until its last word.</summary>
    public Saying? Whole => Line == Count ? new Saying(_played, _sung, _pair, _line, _sure) : null;

    /// <summary>Beginning of a line.</summary>
    /// <param name="line">Line from 0.</param>
    public string Subject(int line) => _lines[line].Subject;

    /// <summary>The words a line can end with.</summary>
    /// <param name="line">Line from 0.</param>
    public IReadOnlyList<string> Words(int line) => _lines[line].Words;

    /// <summary>The word taken for a line, or -1.</summary>
    /// <param name="line">Line from 0.</param>
    public int Chosen(int line) => _chosen[line];

    /// <summary>Takes a word and opens the next line.</summary>
    /// <param name="word">Index of the word.</param>
    public void Take(int word)
    {
        if (Line < Count)
        {
            _chosen[Line] = word;
            _lines[Line].Set(word);
            Line++;
        }
    }

    /// <summary>Goes back one line.</summary>
    public void Undo()
    {
        if (Line > 0)
        {
            _chosen[--Line] = -1;
        }
    }
}
