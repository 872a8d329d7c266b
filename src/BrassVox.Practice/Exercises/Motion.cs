namespace BrassVox.Practice.Exercises;

/// <summary>One stretch of a tone's path.</summary>
/// <param name="Move">What the tone does.</param>
/// <param name="To">Interval above the role's own note of the pair; null counts as P1. Not for a rest.</param>
/// <param name="Cents">Cents added to <paramref name="To"/>, -1200 to 1200.</param>
/// <param name="Hz">Hz added after the cents, -50 to 50: against a tone that stands there, so many beats a second.</param>
/// <param name="Seconds">Length in seconds, &gt; 0; or give <paramref name="Beats"/>.</param>
/// <param name="Beats">Length in beats of the plan's tempo, &gt; 0; or give <paramref name="Seconds"/>.</param>
/// <param name="Over">In place of <paramref name="To"/>, for the sung tone: this interval above the note the played tone has when the stretch begins, pure in the pair's tuning.</param>
/// <param name="Resultant">In place of <paramref name="To"/>: on a resultant of the step's pair, as in S-P, in the octave nearest to the middle of the voice.</param>
/// <param name="Label">What the note is called in findings, as in 3.1 for bar 3, beat 1; null for none.</param>
public sealed record Motion(
    Move Move, Interval? To = null, double Cents = 0, double Hz = 0, double? Seconds = null, double? Beats = null,
    Interval? Over = null, string? Resultant = null, string? Label = null);
