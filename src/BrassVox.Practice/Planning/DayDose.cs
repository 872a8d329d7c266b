namespace BrassVox.Practice.Planning;

/// <summary>How a day's minutes are shared out. Pure.</summary>
/// <remarks>
/// Our own dose, to be tried with players: five minutes of hearing, five of warm-up, two blocks of five with rest between, three of looking back;
/// five days a week. With fewer minutes blocks fall away before they shrink; the voice is never used without a warm-up, two blocks never meet.
/// </remarks>
public static class DayDose
{
    /// <summary>Fewest minutes of a plan.</summary>
    public const int Fewest = 5;

    /// <summary>Most minutes of a plan.</summary>
    public const int Most = 60;

    private const int Block = 5;
    private const int Review = 3;
    private const int ShortWarmUp = 4;
    private const int LongestHearing = 15;
    private const int MostBlocks = 3;
    private const int LeastForPlaying = 10;
    private const int LeastForReview = 18;
    private const int Standard = 28;

    /// <summary>The blocks of a day in order; their minutes add up to what was given, or to less when lips and voice rest.</summary>
    /// <param name="minutes">Minutes at hand; clamped.</param>
    /// <param name="mayPlay">False on a day when lips and voice rest: hearing and looking back only.</param>
    public static IReadOnlyList<(PlanLineKind Kind, int Minutes)> Blocks(int minutes, bool mayPlay = true) =>
        [.. Whole(minutes, mayPlay).SelectMany(block => block.Kind == PlanLineKind.Hearing ? InFives(block.Minutes) : [block])];

    /// <summary>Ears tire as well: more than seven minutes of hearing become several exercises.</summary>
    private static IEnumerable<(PlanLineKind Kind, int Minutes)> InFives(int minutes)
    {
        int lines = Math.Max(1, (minutes + 2) / Block);
        for (int i = 0; i < lines; i++)
        {
            yield return (PlanLineKind.Hearing, (minutes * (i + 1) / lines) - (minutes * i / lines));
        }
    }

    private static List<(PlanLineKind Kind, int Minutes)> Whole(int minutes, bool mayPlay)
    {
        int m = Math.Clamp(minutes, Fewest, Most);
        if (!mayPlay)
        {
            return m < Fewest + Review
                ? [(PlanLineKind.Hearing, m)]
                : [(PlanLineKind.Hearing, Math.Min(LongestHearing, m - Review)), (PlanLineKind.Review, Review)];
        }

        if (m < LeastForPlaying)
        {
            return [(PlanLineKind.Hearing, m)];
        }

        if (m < LeastForReview)
        {
            int rest = m - Block - ShortWarmUp;
            return rest < Review
                ? [(PlanLineKind.WarmUp, ShortWarmUp + rest), (PlanLineKind.Playing, Block)]
                : [(PlanLineKind.Hearing, rest), (PlanLineKind.WarmUp, ShortWarmUp), (PlanLineKind.Playing, Block)];
        }

        if (m < Standard)
        {
            return [(PlanLineKind.Hearing, Block + m - LeastForReview), (PlanLineKind.WarmUp, Block), (PlanLineKind.Playing, Block), (PlanLineKind.Review, Review)];
        }

        int more = m - Standard;
        int blocks = 2 + Math.Min(MostBlocks - 2, more / (2 * Block));
        more -= 2 * Block * (blocks - 2);
        int hearingMore = Math.Min(more, LongestHearing - Block);
        List<(PlanLineKind, int)> lines = [(PlanLineKind.Hearing, Block + hearingMore), (PlanLineKind.WarmUp, Block)];
        for (int i = 0; i < blocks; i++)
        {
            if (i > 0)
            {
                lines.Add((PlanLineKind.Rest, Block));
            }

            lines.Add((PlanLineKind.Playing, Block));
        }

        lines.Add((PlanLineKind.Review, Review + more - hearingMore));
        return lines;
    }
}
