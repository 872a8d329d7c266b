namespace BrassVox.Practice.Exercises;

/// <summary>The sung tone is moved by keys until the pair stands still.</summary>
/// <param name="StepCents">Cents one key moves, &gt; 0.</param>
/// <param name="WithinSeconds">Time allowed in seconds, &gt; 0.</param>
/// <param name="StillBelowPerSecond">Beats per second that count as still, &gt; 0.</param>
public sealed record AdjustAnswer(double StepCents, double WithinSeconds, double StillBelowPerSecond) : AnswerPlan;
