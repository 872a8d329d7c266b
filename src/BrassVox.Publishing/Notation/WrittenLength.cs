using BrassVox.Practice.Passages;

namespace BrassVox.Publishing.Notation;

/// <summary>A written length: 1/Unit note with dots, Count of them in the time of InTimeOf.</summary>
internal readonly record struct WrittenLength(int Unit, int Dots, int Count, int InTimeOf)
{
    private const int ShortestUnit = 128;
    private static readonly (int Count, int InTimeOf)[] Ratios = [(1, 1), (3, 2), (5, 4), (7, 4), (9, 8), (7, 8), (2, 3), (4, 3)];

    public bool IsTuplet => Count != InTimeOf;

    public long Ticks => Plain(Unit, Dots) * InTimeOf / Count;

    /// <summary>A length as written lengths, longest first; null when no sum of them comes to it.</summary>
    public static IReadOnlyList<WrittenLength>? Of(long ticks)
    {
        foreach ((int count, int inTimeOf) in Ratios)
        {
            if (ticks * count % inTimeOf != 0)
            {
                continue;
            }

            long left = ticks * count / inTimeOf;
            List<WrittenLength> lengths = [];
            for (int unit = 1; unit <= ShortestUnit; unit *= 2)
            {
                for (int dots = unit < ShortestUnit ? 1 : 0; dots >= 0; dots--)
                {
                    while (Plain(unit, dots) <= left)
                    {
                        lengths.Add(new WrittenLength(unit, dots, count, inTimeOf));
                        left -= Plain(unit, dots);
                    }
                }
            }

            if (left == 0)
            {
                return lengths;
            }
        }

        return null;
    }

    private static long Plain(int unit, int dots)
    {
        long ticks = Passage.TicksPerWhole / unit;
        return dots == 0 ? ticks : ticks + (ticks / 2);
    }
}
