using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>A line for two tones of one player, in concert pitch: what is played, what is sung, when.</summary>
/// <param name="Title">Name for people; empty when it has none.</param>
/// <param name="Root">Note that a just tuning is rooted on; null takes the first played note.</param>
/// <param name="Bars">The bars in order, without gaps, at least one.</param>
/// <param name="Tempos">Tempo changes by rising tick, the first at tick 0.</param>
/// <param name="Played">P in order, never overlapping; tied notes are one. What lies between is silence.</param>
/// <param name="Sung">S likewise.</param>
/// <param name="Remarks">What the reader passed over or decided, in sentences; empty for text.</param>
public sealed record Passage(
    string Title,
    Pitch? Root,
    IReadOnlyList<PassageBar> Bars,
    IReadOnlyList<PassageTempo> Tempos,
    IReadOnlyList<PassageNote> Played,
    IReadOnlyList<PassageNote> Sung,
    IReadOnlyList<string> Remarks)
{
    /// <summary>Ticks in a quarter note: halves to 1/128, thirds, fifths, sevenths and ninths of it are whole.</summary>
    public const int TicksPerQuarter = 10080;

    /// <summary>Ticks in a whole note.</summary>
    public const long TicksPerWhole = 4 * TicksPerQuarter;

    /// <summary>Tempo of a passage that names none, in quarter notes a minute. Ours.</summary>
    public const double UsualTempo = 60;

    /// <summary>Most bars read.</summary>
    public const int MostBars = 2000;

    /// <summary>Most notes read, both tones together.</summary>
    public const int MostNotes = 20_000;

    /// <summary>Longest passage read, in seconds at its own tempo.</summary>
    public const double LongestSeconds = 1800;

    /// <summary>Length in ticks.</summary>
    public long LengthTicks => Bars[^1].StartTick + Bars[^1].LengthTicks;

    /// <summary>Notes of one tone.</summary>
    /// <param name="role">The tone.</param>
    public IReadOnlyList<PassageNote> Notes(VoiceRole role) => role == VoiceRole.Played ? Played : Sung;

    /// <summary>Seconds from the beginning to a tick at the passage's own tempo.</summary>
    /// <param name="tick">Tick, at least 0.</param>
    public double SecondsAt(long tick)
    {
        double seconds = 0;
        for (int i = 0; i < Tempos.Count && Tempos[i].Tick < tick; i++)
        {
            long to = i + 1 < Tempos.Count ? Math.Min(Tempos[i + 1].Tick, tick) : tick;
            seconds += 60.0 * (to - Tempos[i].Tick) / TicksPerQuarter / Tempos[i].QuartersPerMinute;
        }

        return seconds;
    }

    /// <summary>The bar that holds a tick; the last one for ticks beyond it.</summary>
    /// <param name="tick">Tick, at least 0.</param>
    public PassageBar BarAt(long tick) => Bars.LastOrDefault(bar => bar.StartTick <= tick) ?? Bars[0];

    /// <summary>Bar and beat as musicians count them, as in 3.1 or 3.2+1/2.</summary>
    /// <param name="tick">Tick, at least 0.</param>
    public string PlaceOf(long tick)
    {
        PassageBar bar = BarAt(tick);
        long beat = TicksPerWhole / bar.BeatUnit;
        long since = tick - bar.StartTick;
        System.Globalization.CultureInfo c = System.Globalization.CultureInfo.InvariantCulture;
        string place = string.Create(c, $"{bar.Number}.{1 + (since / beat)}");
        long rest = since % beat;
        if (rest == 0)
        {
            return place;
        }

        long divisor = Divisor(rest, beat);
        return string.Create(c, $"{place}+{rest / divisor}/{beat / divisor}");
    }

    /// <summary>The same passage with the sung notes moved by octaves.</summary>
    /// <param name="octaves">Octaves, any sign.</param>
    public Passage WithSungOctaves(int octaves) => octaves == 0
        ? this
        : this with { Sung = [.. Sung.Select(note => note with { Note = note.Note.Transposed(octaves) })] };

    private static long Divisor(long a, long b) => b == 0 ? a : Divisor(b, a % b);
}
