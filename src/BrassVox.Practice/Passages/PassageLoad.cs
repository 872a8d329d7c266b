namespace BrassVox.Practice.Passages;

/// <summary>A passage, or why there is none. Nothing is ever half loaded.</summary>
/// <param name="Passage">The passage; null when it could not be read.</param>
/// <param name="Problem">The reason; null when it could.</param>
public sealed record PassageLoad(Passage? Passage, PassageProblem? Problem);
