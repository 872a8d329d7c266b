using BrassVox.Practice.Exercises;

namespace BrassVox.Practice.Planning;

/// <summary>An exercise that could be next, with what speaks for it.</summary>
/// <param name="Exercise">The exercise in the player's notes.</param>
/// <param name="Reasons">What speaks for it and how much, most first.</param>
internal sealed record PlanCandidate(ResolvedExercise Exercise, IReadOnlyList<(double Weight, string Because)> Reasons)
{
    /// <summary>All weights together.</summary>
    public double Weight => Reasons.Sum(reason => reason.Weight);

    /// <summary>The strongest reason that has words.</summary>
    public string Because => Reasons.Where(reason => reason.Because.Length > 0).Select(reason => reason.Because).FirstOrDefault("next in order");

    public static PlanCandidate Of(ResolvedExercise exercise, IEnumerable<(double Weight, string Because)> reasons) =>
        new(exercise, [.. reasons.OrderByDescending(reason => reason.Weight)]);
}
