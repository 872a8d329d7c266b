namespace BrassVox.Practice.Exercises;

/// <summary>One of a few options.</summary>
/// <param name="Options">At least two, different.</param>
public sealed record ChoiceAnswer(IReadOnlyList<string> Options) : AnswerPlan;
