namespace BrassVox.Practice.Exercises;

/// <summary>Listening trials: sounds, a question, an answer that is true.</summary>
/// <param name="Trials">Trials in a set, at least 1.</param>
/// <param name="Question">What is asked.</param>
/// <param name="Answer">What is answered with.</param>
/// <param name="Sounds">The sounds that cases name.</param>
/// <param name="Cases">The possible trials, each equally often, in seeded order.</param>
/// <param name="GapSeconds">Silence between the sounds of a trial, in seconds, at least 0.15.</param>
/// <param name="Difficulty">What varies; null when nothing does.</param>
/// <param name="Hint">What to listen for when answers go wrong.</param>
public sealed record ListeningPlan(
    int Trials,
    string Question,
    AnswerPlan Answer,
    IReadOnlyList<SoundPlan> Sounds,
    IReadOnlyList<TrialCase> Cases,
    double GapSeconds,
    DifficultyPlan? Difficulty = null,
    string? Hint = null);
