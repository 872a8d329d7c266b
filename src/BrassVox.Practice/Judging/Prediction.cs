using BrassVox.Practice.Exercises;

namespace BrassVox.Practice.Judging;

/// <summary>The number a player expects of a take, said before it begins.</summary>
/// <param name="Figure">What the number is of.</param>
/// <param name="Value">In cents, -600 to 600, or in beats per second, 0 to 50.</param>
public sealed record Prediction(PredictedFigure Figure, double Value);
