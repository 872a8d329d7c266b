using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>A tone that the program sounds in a step.</summary>
/// <param name="Role">The tone.</param>
/// <param name="Path">Its pitch, second 0 at the step's beginning.</param>
/// <param name="Windows">When it is heard, in order, not overlapping.</param>
public sealed record SoundingPart(VoiceRole Role, PitchPath Path, IReadOnlyList<Window> Windows);
