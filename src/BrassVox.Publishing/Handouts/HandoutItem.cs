using BrassVox.Practice.Exercises;
using BrassVox.Publishing.Notation;

namespace BrassVox.Publishing.Handouts;

/// <summary>One exercise or passage of a handout.</summary>
/// <param name="Resolved">What is asked, in the player's notes.</param>
/// <param name="Sound">Its sound.</param>
/// <param name="Notes">Its notes, engraved, or why they are not.</param>
public sealed record HandoutItem(ResolvedExercise Resolved, HandoutSound Sound, Engraving Notes);
