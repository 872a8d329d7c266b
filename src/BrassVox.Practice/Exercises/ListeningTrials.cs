using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Makes the trials of a listening exercise: cases and difficulties balanced, in an order that a seed fixes.</summary>
public static class ListeningTrials
{
    /// <summary>Harmonics looked through for the beat that is heard.</summary>
    private const int HighestHarmonic = 6;

    /// <summary>Builds the trials of a set.</summary>
    /// <param name="resolved">A resolved listening exercise.</param>
    /// <param name="seed">Same seed, same trials.</param>
    /// <exception cref="ArgumentException">The exercise is no listening exercise.</exception>
    public static IReadOnlyList<ListeningTrial> Build(ResolvedExercise resolved, int seed)
    {
        ListeningPlan plan = resolved.Exercise.Listening
            ?? throw new ArgumentException($"{resolved.Exercise.Id} is no listening exercise.", nameof(resolved));
        var random = new SeededOrder(seed);
        int[] cases = random.Balanced(plan.Cases.Count, plan.Trials);
        int[] values = random.Balanced(plan.Difficulty?.Values.Count ?? 1, plan.Trials);
        var trials = new ListeningTrial[plan.Trials];
        for (int i = 0; i < trials.Length; i++)
        {
            double sign = plan.Difficulty is { EitherSign: true } && random.Coin() ? -1 : 1;
            trials[i] = Build(resolved, plan, i + 1, plan.Cases[cases[i]], sign * plan.Difficulty?.Values[values[i]]);
        }

        return trials;
    }

    /// <summary>One trial at a value of one's own choice.</summary>
    /// <param name="resolved">A resolved listening exercise.</param>
    /// <param name="number">Its number, from 1.</param>
    /// <param name="seed">Same seed and number, same case.</param>
    /// <param name="value">The value of what varies.</param>
    /// <exception cref="ArgumentException">The exercise is no listening exercise.</exception>
    public static ListeningTrial At(ResolvedExercise resolved, int number, int seed, double value)
    {
        ListeningPlan plan = resolved.Exercise.Listening
            ?? throw new ArgumentException($"{resolved.Exercise.Id} is no listening exercise.", nameof(resolved));
        int drawn = new SeededOrder(unchecked((seed * 1000) + number)).Balanced(plan.Cases.Count, 1)[0];
        return Build(resolved, plan, number, plan.Cases[drawn], value);
    }

    /// <summary>The examples heard before the first trial: the first two cases at the easiest value.</summary>
    /// <param name="resolved">A resolved listening exercise.</param>
    /// <exception cref="ArgumentException">The exercise is no listening exercise.</exception>
    public static IReadOnlyList<ListeningTrial> Examples(ResolvedExercise resolved)
    {
        ListeningPlan plan = resolved.Exercise.Listening
            ?? throw new ArgumentException($"{resolved.Exercise.Id} is no listening exercise.", nameof(resolved));
        return [.. plan.Cases.Take(2).Select((example, i) => Build(resolved, plan, i + 1, example, plan.Difficulty?.Values[0]))];
    }

    private static ListeningTrial Build(ResolvedExercise resolved, ListeningPlan plan, int number, TrialCase trial, double? value)
    {
        ExerciseStep[] sounds = [.. trial.Sounds.Select(id => SoundSteps.Of(plan.Sounds.First(sound => sound.Id == id), resolved.Exercise, resolved.Profile, resolved.Pair, plan.Difficulty, value))];
        IReadOnlyList<string> options = plan.Answer is ChoiceAnswer choice ? choice.Options : [];
        int? correct = trial.Option is { } option ? options.ToList().IndexOf(option) : null;
        return new ListeningTrial(
            number, sounds, plan.GapSeconds, plan.Question, options, correct, BeatsOf(sounds[^1]), value, trial.Says);
    }

    private static double? BeatsOf(ExerciseStep sound)
    {
        double? Hz(VoiceRole role) => sound.Sounding.FirstOrDefault(part => part.Role == role)?.Path.FrequencyHz(sound.DurationSeconds);
        if (Hz(VoiceRole.Played) is not { } playedHz || Hz(VoiceRole.Sung) is not { } sungHz)
        {
            return null;
        }

        IReadOnlyList<BeatingPair> pairs = BeatingPairs.Of(playedHz, sungHz, HighestHarmonic);
        return pairs.Count == 0 ? null : pairs[0].RateHz;
    }
}
