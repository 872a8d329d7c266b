using BrassVox.Practice.Exercises;
using BrassVox.Publishing.Tracks;

namespace BrassVox.Publishing.Handouts;

/// <summary>One exercise or passage of a handout.</summary>
/// <param name="Resolved">What is asked, in the player's notes.</param>
/// <param name="Tracks">Its sound, at 48 kHz.</param>
/// <param name="Notation">Its notes, engraved, as SVG; null when they are not.</param>
/// <param name="WhyNoNotation">One sentence in place of the notes; null when they are there.</param>
public sealed record HandoutItem(ResolvedExercise Resolved, PracticeTracks Tracks, string? Notation, string? WhyNoNotation);
