using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>A path asked of one tone.</summary>
/// <param name="Role">The tone.</param>
/// <param name="Path">Its pitch over the step, second 0 at the step's beginning; meaningful only inside segments that are no rest.</param>
/// <param name="Segments">Its stretches in order.</param>
public sealed record AskedPart(VoiceRole Role, PitchPath Path, IReadOnlyList<AskedSegment> Segments)
{
    /// <summary>True when the pitch asked for changes within the step.</summary>
    public bool Moves => Segments.Where(segment => segment.Move != Move.Rest)
        .SelectMany(segment => new[] { segment.FromHz, segment.ToHz }).Distinct().Skip(1).Any();

    /// <summary>True when the tone is asked for at a time.</summary>
    /// <param name="seconds">Seconds from the beginning of the step.</param>
    public bool IsAskedAt(double seconds) => Segments.Any(segment =>
        segment.Move != Move.Rest && seconds >= segment.FromSeconds && seconds < segment.ToSeconds);
}
