namespace BrassVox.Practice.Exercises;

/// <summary>Beats per second, tapped or given as a number.</summary>
/// <param name="WithinPercent">A trial counts as right within this many per cent of the truth, &gt; 0.</param>
public sealed record RateAnswer(double WithinPercent) : AnswerPlan;
