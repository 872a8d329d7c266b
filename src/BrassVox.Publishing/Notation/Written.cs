using BrassVox.Practice.Passages;

namespace BrassVox.Publishing.Notation;

/// <summary>A note or rest as it stands in one bar, of one written length.</summary>
internal readonly record struct Written(ScoreNote? Note, long StartTick, long Ticks, WrittenLength? Length, bool TiedFrom, bool TiedTo)
{
    /// <summary>A bar's content without gaps.</summary>
    public static IEnumerable<Written> Bar(PassageBar bar, IReadOnlyList<ScoreNote> notes)
    {
        long at = bar.StartTick;
        long end = bar.StartTick + bar.LengthTicks;
        foreach (ScoreNote note in notes.Where(note => note.StartTick < end && note.EndTick > bar.StartTick))
        {
            foreach (Written rest in Parts(null, at, note.StartTick))
            {
                yield return rest;
            }

            at = Math.Max(at, note.StartTick);
            long to = Math.Min(note.EndTick, end);
            foreach (Written part in Parts(note, at, to))
            {
                yield return part;
            }

            at = to;
        }

        foreach (Written rest in Parts(null, at, end))
        {
            yield return rest;
        }
    }

    private static IEnumerable<Written> Parts(ScoreNote? note, long from, long to)
    {
        if (to <= from)
        {
            yield break;
        }

        if (WrittenLength.Of(to - from) is not { } lengths)
        {
            yield return Part(note, from, to - from, null);
            yield break;
        }

        foreach (WrittenLength length in lengths)
        {
            yield return Part(note, from, length.Ticks, length);
            from += length.Ticks;
        }
    }

    private static Written Part(ScoreNote? note, long from, long ticks, WrittenLength? length) =>
        new(note, from, ticks, length, note is not null && from > note.StartTick, note is not null && from + ticks < note.EndTick);
}
