using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Exercises;

/// <summary>One step of a take: what each tone is asked to do, what sounds meanwhile, how it is judged.</summary>
/// <param name="Id">Name within the exercise.</param>
/// <param name="Prompt">What the player is told. {drone} in it stands for a sentence on when the drone sounds.</param>
/// <param name="Played">Path asked of P; empty when P is not asked for.</param>
/// <param name="Sung">Path asked of S; empty when S is not asked for.</param>
/// <param name="Drone">What the program sounds meanwhile; empty for silence.</param>
/// <param name="Criteria">How the step is judged, at least one.</param>
/// <param name="Sound">What is heard at the beginning of the step, before anything is asked; takes the place of a drone. Its own notes are those that a resultant is taken from.</param>
/// <param name="PromptPlaying">What a player is told who plays while the program sounds S; null where <paramref name="Prompt"/> is true then too.</param>
/// <param name="PromptSinging">What a player is told who sings while the program sounds P; null where <paramref name="Prompt"/> is true then too.</param>
public sealed record StepPlan(
    string Id,
    string Prompt,
    IReadOnlyList<Motion> Played,
    IReadOnlyList<Motion> Sung,
    IReadOnlyList<DroneWindow> Drone,
    IReadOnlyList<Criterion> Criteria,
    SoundPlan? Sound = null,
    string? PromptPlaying = null,
    string? PromptSinging = null);
