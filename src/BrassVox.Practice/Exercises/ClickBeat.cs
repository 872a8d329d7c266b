namespace BrassVox.Practice.Exercises;

/// <summary>One beat of a click.</summary>
/// <param name="Seconds">When, from the beginning of the take.</param>
/// <param name="IsFirst">True for the first beat of a bar or step.</param>
public readonly record struct ClickBeat(double Seconds, bool IsFirst);
