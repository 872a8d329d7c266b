namespace BrassVox.Practice.Passages;

/// <summary>The tempos of a passage while it is read: one at a tick, the last one told.</summary>
internal sealed class TempoList
{
    private const int Most = 4000;
    private readonly SortedDictionary<long, double> _tempos = [];

    /// <summary>True when there is one at the beginning.</summary>
    public bool HasFirst => _tempos.ContainsKey(0);

    /// <summary>Sets the tempo from a tick on.</summary>
    /// <param name="tick">The tick.</param>
    /// <param name="quartersPerMinute">Quarter notes a minute.</param>
    /// <param name="line">Where in the file, for the fault.</param>
    public void Set(long tick, double quartersPerMinute, int line = 0)
    {
        _tempos[tick] = quartersPerMinute;
        if (_tempos.Count > Most)
        {
            throw new PassageFault(line, 0, $"there are more than {Most} changes of tempo.");
        }
    }

    /// <summary>The tempos by rising tick.</summary>
    /// <param name="usual">The tempo at the beginning where none is told.</param>
    public IReadOnlyList<PassageTempo> From(double usual)
    {
        _tempos.TryAdd(0, usual);
        return [.. _tempos.Select(tempo => new PassageTempo(tempo.Key, tempo.Value))];
    }
}
