using BrassVox.Practice.Profiles;

namespace BrassVox.Publishing.Handouts;

/// <summary>A student of a class and what they are given.</summary>
/// <param name="Player">The student.</param>
/// <param name="Sheets">Exercises and passages in their notes, at least one.</param>
/// <param name="SoFar">The student's takes; null leaves them out.</param>
/// <param name="Reviews">Takes of the student to be looked at one by one; null for none.</param>
public sealed record ClassMember(Player Player, IReadOnlyList<SheetItem> Sheets, TakesSoFar? SoFar = null, IReadOnlyList<TakeReview>? Reviews = null);
