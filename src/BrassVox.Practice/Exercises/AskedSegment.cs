using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>One stretch of an asked path, with its notes worked out.</summary>
/// <param name="Move">What the tone does.</param>
/// <param name="FromSeconds">Begin within the step, in seconds.</param>
/// <param name="ToSeconds">End within the step, in seconds.</param>
/// <param name="Note">The note it stands on or moves to.</param>
/// <param name="Cents">Cents added to the note.</param>
/// <param name="FromHz">Pitch at the beginning in Hz; 0 for a rest.</param>
/// <param name="ToHz">Pitch at the end in Hz; 0 for a rest.</param>
public sealed record AskedSegment(
    Move Move, double FromSeconds, double ToSeconds, Pitch Note, double Cents, double FromHz, double ToHz)
{
    /// <summary>What the note is called in findings, as in 3.1; null for none.</summary>
    public string? Label { get; init; }
}
