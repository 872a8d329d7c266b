using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Turns a planned sound into a step that only sounds.</summary>
internal static class SoundSteps
{
    /// <summary>Builds the step.</summary>
    /// <param name="plan">The sound.</param>
    /// <param name="exercise">Its exercise.</param>
    /// <param name="profile">The player.</param>
    /// <param name="exercisePair">The exercise's pair.</param>
    /// <param name="difficulty">What varies; null when nothing does.</param>
    /// <param name="value">Its value.</param>
    /// <param name="tempoBpm">Tempo for beats; null when none are used.</param>
    public static ExerciseStep Of(
        SoundPlan plan, Exercise exercise, PlayerProfile profile, ResolvedPair exercisePair,
        DifficultyPlan? difficulty = null, double? value = null, double? tempoBpm = null)
    {
        ResolvedPair pair = PairOf(plan, exercise, profile, exercisePair);
        double Setting(DifficultySetting setting) => difficulty?.Sets == setting ? value ?? 0 : 0;
        double depth = difficulty?.Sets == DifficultySetting.CouplingDepth && plan.CouplingDepth > 0 ? value!.Value : plan.CouplingDepth;

        AskedPart? played = plan.Played.Count == 0 ? null : PathBuilder.Build(VoiceRole.Played, plan.Played, pair.Played, pair, tempoBpm);
        AskedPart? sung = plan.Sung.Count == 0 ? null : PathBuilder.Build(VoiceRole.Sung, plan.Sung, pair.Sung, pair, tempoBpm);
        double detuneCents = Setting(DifficultySetting.SungDetuneCents)
            + Cents.Between(pair.SungHz, pair.SungHz + Setting(DifficultySetting.SungDetuneHz));
        List<SoundingPart> parts = [];
        if (played is not null)
        {
            parts.Add(new SoundingPart(VoiceRole.Played, played.Path, PathBuilder.Windows(played)));
        }

        if (sung is not null)
        {
            Synthesis.PitchPath path = detuneCents == 0 ? sung.Path : sung.Path.Transposed(detuneCents);
            parts.Add(new SoundingPart(VoiceRole.Sung, path, PathBuilder.Windows(sung)));
        }

        return new ExerciseStep(
            plan.Id, "", Math.Max(PathBuilder.Length(played), PathBuilder.Length(sung)), parts,
            depth, plan.Resultants, Setting(DifficultySetting.ResultantGainDb), new ListenTask());
    }

    /// <summary>The pair a sound stands on: its own notes where it names any.</summary>
    public static ResolvedPair PairOf(SoundPlan plan, Exercise exercise, PlayerProfile profile, ResolvedPair exercisePair)
    {
        if (plan.PlayedNote is null && plan.SungAbove is null && plan.Tuning is null)
        {
            return exercisePair;
        }

        Pitch played = plan.PlayedNote ?? exercisePair.Played;
        Interval above = plan.SungAbove ?? exercise.Pair.SungAbove ?? new Interval(4, 7);
        Pitch sung = plan.SungAbove is null && plan.PlayedNote is null ? exercisePair.Sung : above.From(played);
        return ExerciseResolver.PairOf(played, sung, plan.Tuning ?? exercise.Pair.Tuning, profile);
    }
}
