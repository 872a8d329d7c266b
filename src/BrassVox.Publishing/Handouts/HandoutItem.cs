using BrassVox.Practice.Exercises;
using BrassVox.Publishing.Notation;
using BrassVox.Publishing.Tracks;
using BrassVox.Synthesis;

namespace BrassVox.Publishing.Handouts;

/// <summary>One exercise or passage of a handout.</summary>
/// <param name="Resolved">What is asked, in the player's notes.</param>
/// <param name="Tracks">Its sound, at 48 kHz.</param>
/// <param name="Notation">Its notes, engraved, as SVG; null when they are not.</param>
/// <param name="WhyNoNotation">One sentence in place of the notes; null when they are there.</param>
public sealed record HandoutItem(ResolvedExercise Resolved, PracticeTracks Tracks, string? Notation, string? WhyNoNotation)
{
    /// <summary>Renders the sound of an item whose notes are engraved. Never on a sound thread.</summary>
    /// <param name="item">The item.</param>
    /// <param name="engraving">Its notes.</param>
    /// <param name="engine">An engine with stems, not yet prepared.</param>
    /// <param name="cancel">Ends it early.</param>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> asked for it.</exception>
    public static HandoutItem Of(SheetItem item, Engraving engraving, IPairEngine engine, CancellationToken cancel = default) =>
        new(item.Resolved, PracticeTracks.Render(item.Resolved, engine, new TrackOptions(), cancel), engraving.Svg, engraving.WhyNot);
}
