namespace BrassVox.Practice.Exercises;

/// <summary>The values one property takes over the trials, each equally often, in seeded order.</summary>
/// <param name="Sets">The property.</param>
/// <param name="Name">Its name for the listener.</param>
/// <param name="Unit">Its unit for the listener.</param>
/// <param name="Values">The values, easiest first, at least one.</param>
/// <param name="EitherSign">True when a value is taken upwards or downwards at random.</param>
public sealed record DifficultyPlan(
    DifficultySetting Sets, string Name, string Unit, IReadOnlyList<double> Values, bool EitherSign = false);
