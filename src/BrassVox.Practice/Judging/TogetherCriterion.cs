namespace BrassVox.Practice.Judging;

/// <summary>Both tones sound at once.</summary>
/// <param name="AtLeastSeconds">For how long without a break, in seconds.</param>
public sealed record TogetherCriterion(double AtLeastSeconds) : Criterion;
