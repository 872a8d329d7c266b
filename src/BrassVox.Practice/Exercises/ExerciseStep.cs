namespace BrassVox.Practice.Exercises;

/// <summary>One step with everything worked out: what sounds, and, apart from it, what is asked.</summary>
/// <param name="Id">Name within the exercise.</param>
/// <param name="Prompt">What the player is told; empty for a sound of a trial.</param>
/// <param name="DurationSeconds">Length in seconds.</param>
/// <param name="Sounding">What the program sounds.</param>
/// <param name="CouplingDepth">Depth of coupling between the sounding tones, 0 to 1.</param>
/// <param name="Resultants">Names of the resultants that stay audible; null keeps all.</param>
/// <param name="ResultantGainDb">Gain of those resultants in dB.</param>
/// <param name="Task">What is asked.</param>
/// <param name="PromptPlaying">What is told instead where the program sounds S; null for the same.</param>
/// <param name="PromptSinging">What is told instead where the program sounds P; null for the same.</param>
public sealed record ExerciseStep(
    string Id,
    string Prompt,
    double DurationSeconds,
    IReadOnlyList<SoundingPart> Sounding,
    double CouplingDepth,
    IReadOnlyList<string>? Resultants,
    double ResultantGainDb,
    PlayerTask Task,
    string? PromptPlaying = null,
    string? PromptSinging = null);
