using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice;

public sealed class ListeningTrialsTests
{
    public static TheoryData<string> Listening() =>
        [.. ShippedExercises.Library.Exercises.Where(exercise => exercise.IsListening).Select(exercise => exercise.Id)];

    [Theory]
    [MemberData(nameof(Listening))]
    public void The_same_seed_gives_the_same_trials_and_cases_are_balanced(string id)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve(id);
        ListeningPlan plan = resolved.Exercise.Listening!;
        IReadOnlyList<ListeningTrial> trials = ListeningTrials.Build(resolved, 11);
        Assert.Equal(plan.Trials, trials.Count);
        Assert.Equal(
            trials.Select(trial => (trial.CorrectOption, trial.Difficulty)),
            ListeningTrials.Build(resolved, 11).Select(trial => (trial.CorrectOption, trial.Difficulty)));
        if (plan.Answer is ChoiceAnswer && plan.Cases.Count <= plan.Trials)
        {
            int[] counts = [.. trials.GroupBy(trial => trial.Says).Select(group => group.Count())];
            Assert.True(counts.Max() - counts.Min() <= 1, string.Join(' ', counts));
        }
    }

    [Fact]
    public void Other_seeds_give_other_orders()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("find-the-added-tone");
        int orders = Enumerable.Range(1, 20)
            .Select(seed => string.Concat(ListeningTrials.Build(resolved, seed).Select(trial => trial.CorrectOption)))
            .Distinct().Count();
        Assert.True(orders > 10, $"{orders} different orders in 20 seeds");
    }

    /// <summary>Two tones beat at the difference of their frequencies (exact).</summary>
    [Fact]
    public void The_beat_rate_that_is_asked_is_the_difference_of_the_two_tones_that_sound()
    {
        foreach (Instrument instrument in Enum.GetValues<Instrument>())
        {
            foreach (ListeningTrial trial in ListeningTrials.Build(ShippedExercises.Resolve("count-the-beats", instrument), 3))
            {
                double Hz(VoiceRole role) => trial.Sounds[0].Sounding.Single(part => part.Role == role).Path.FrequencyHz(2.5);
                Assert.Equal(Math.Abs(Hz(VoiceRole.Sung) - Hz(VoiceRole.Played)), trial.TrueBeatsPerSecond!.Value, 1e-9);
                Assert.Equal(Math.Abs(trial.Difficulty!.Value), trial.TrueBeatsPerSecond.Value, 1e-9);
            }
        }
    }

    [Fact]
    public void Only_the_added_tone_tells_the_two_sounds_apart()
    {
        ListeningTrial trial = ListeningTrials.Build(ShippedExercises.Resolve("find-the-added-tone"), 1)[0];
        ExerciseStep with = trial.Sounds[trial.CorrectOption!.Value];
        ExerciseStep without = trial.Sounds[1 - trial.CorrectOption.Value];
        Assert.Equal(["S-P"], with.Resultants!);
        Assert.Empty(without.Resultants!);
        Assert.Equal(with.CouplingDepth, without.CouplingDepth);
        Assert.Equal(with.DurationSeconds, without.DurationSeconds);
    }
}
