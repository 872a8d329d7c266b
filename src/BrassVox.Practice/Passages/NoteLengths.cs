namespace BrassVox.Practice.Passages;

/// <summary>Written note lengths and ticks.</summary>
internal static class NoteLengths
{
    public const int ShortestUnit = 64;
    public const int MostDots = 2;

    /// <summary>Tuplets tried when writing: so many in the time of so many.</summary>
    public static readonly (int Count, int InTimeOf)[] Tuplets = [(3, 2), (5, 4), (7, 4), (9, 8), (7, 8), (2, 3), (4, 3)];

    public static long Ticks(int unit, int dots)
    {
        long ticks = Passage.TicksPerWhole / unit;
        long all = ticks;
        for (int i = 1; i <= dots; i++)
        {
            all += ticks >> i;
        }

        return all;
    }

    /// <summary>A length as a sum of written lengths, longest first; null when it is none.</summary>
    public static IReadOnlyList<(int Unit, int Dots)>? Parts(long ticks)
    {
        List<(int, int)> parts = [];
        while (ticks > 0)
        {
            (int Unit, int Dots)? best = null;
            for (int unit = 1; unit <= ShortestUnit && best is null; unit *= 2)
            {
                for (int dots = unit < ShortestUnit ? 1 : 0; dots >= 0 && best is null; dots--)
                {
                    best = Ticks(unit, dots) <= ticks ? (unit, dots) : null;
                }
            }

            if (best is not { } part || parts.Count > 64)
            {
                return null;
            }

            parts.Add(part);
            ticks -= Ticks(part.Unit, part.Dots);
        }

        return parts;
    }
}
