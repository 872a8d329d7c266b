using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>The fixed list of what can be heard alone in a pair.</summary>
public static class PairParts
{
    internal const int Played = 0;
    internal const int Sung = 1;
    internal const int FirstResultant = 2;
    internal const int HighestOrder = 4;

    /// <summary>P, S, then S-P, P+S, 2P-S, 2P+S, 2S-P, P+2S ... by order; each line once, named as it reads while S is above P and below 2P.</summary>
    internal static PairPart[] All { get; } = Make();

    /// <summary>All of them: P, S, then the resultants by order.</summary>
    public static IReadOnlyList<PairPart> Listed { get; } = Array.AsReadOnly(All);

    private static PairPart[] Make()
    {
        List<PairPart> parts = [new(Played, "P", 1, 0), new(Sung, "S", 0, 1)];
        for (int order = 2; order <= HighestOrder; order++)
        {
            for (int played = order - 1; played >= 1; played--)
            {
                int sung = order - played;
                (int m, int n) = played > sung ? (played, -sung) : (-played, sung);
                parts.Add(new PairPart(parts.Count, new Resultant(m, n, 1).Name, m, n));
                parts.Add(new PairPart(parts.Count, new Resultant(played, sung, 1).Name, played, sung));
            }
        }

        return [.. parts];
    }
}
