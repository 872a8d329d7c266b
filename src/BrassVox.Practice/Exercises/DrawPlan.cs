namespace BrassVox.Practice.Exercises;

/// <summary>Steps drawn at random, each pair of a played note and an interval at most once before all have been.</summary>
/// <param name="Steps">How many steps a take has, at least 1.</param>
/// <param name="Played">Places of the played note above the pair's P, at least one.</param>
/// <param name="Over">Intervals of the sung tone above it, at least one.</param>
/// <remarks>
/// The one step of the plan is the pattern: holds of P that name no place get the drawn one, motions of S with "over" the drawn interval.
/// In its prompt {played} and {interval} stand for what was drawn.
/// </remarks>
public sealed record DrawPlan(int Steps, IReadOnlyList<Interval> Played, IReadOnlyList<Interval> Over)
{
    /// <summary>The drawn steps.</summary>
    /// <param name="pattern">The plan's step.</param>
    /// <param name="seed">Same seed, same steps.</param>
    internal IReadOnlyList<StepPlan> Expand(StepPlan pattern, int seed)
    {
        int[] order = new SeededOrder(seed).Balanced(Played.Count * Over.Count, Steps);
        return [.. order.Select((index, i) => Of(pattern, i + 1, Played[index / Over.Count], Over[index % Over.Count]))];
    }

    private static StepPlan Of(StepPlan pattern, int number, Interval played, Interval over)
    {
        Motion[] Placed(IReadOnlyList<Motion> motions) =>
            [.. motions.Select(motion => motion is { Move: not Move.Rest, To: null } ? motion with { To = played } : motion)];
        return pattern with
        {
            Id = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{pattern.Id}-{number}"),
            Played = Placed(pattern.Played),
            Sung = [.. pattern.Sung.Select(motion => motion.Over is null ? motion : motion with { Over = over })],
            Sound = pattern.Sound is { } sound ? sound with { Played = Placed(sound.Played) } : null,
        };
    }
}
