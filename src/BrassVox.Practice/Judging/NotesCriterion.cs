namespace BrassVox.Practice.Judging;

/// <summary>Note by note: pitch and time of every held note of both tones.</summary>
/// <param name="LimitCents">Largest distance of a note's median pitch, either side, in cents.</param>
/// <param name="WithinSeconds">Largest distance of a note's beginning from its place, in seconds.</param>
/// <param name="Share">Share of the told notes that have to be as asked, over 0 to 1.</param>
public sealed record NotesCriterion(GradeLimits LimitCents, double WithinSeconds, double Share = 0.8) : Criterion;
