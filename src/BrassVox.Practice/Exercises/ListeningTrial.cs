namespace BrassVox.Practice.Exercises;

/// <summary>One listening trial with everything worked out, the truth included: screens keep it to themselves until the answer.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Sounds">What is heard, in order.</param>
/// <param name="GapSeconds">Silence between the sounds.</param>
/// <param name="Question">What is asked.</param>
/// <param name="Options">Options of a choice; empty for other answers.</param>
/// <param name="CorrectOption">Index of the true option; null for other answers.</param>
/// <param name="TrueBeatsPerSecond">Beat rate of the last sound between the nearest low harmonics, in beats per second; null where nothing beats.</param>
/// <param name="Difficulty">Value of what varies; null when nothing does.</param>
/// <param name="Says">What is said after the answer.</param>
public sealed record ListeningTrial(
    int Number,
    IReadOnlyList<ExerciseStep> Sounds,
    double GapSeconds,
    string Question,
    IReadOnlyList<string> Options,
    int? CorrectOption,
    double? TrueBeatsPerSecond,
    double? Difficulty,
    string Says);
