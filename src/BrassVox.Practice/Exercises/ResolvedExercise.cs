using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>An exercise with notes, for one player.</summary>
/// <param name="Exercise">The exercise.</param>
/// <param name="Profile">The player.</param>
/// <param name="Pair">The two notes all intervals count from.</param>
/// <param name="Notes">What was changed to fit the player, and what that does to the resultants; empty when nothing was.</param>
/// <param name="Steps">Steps of the take in order; empty for a listening exercise, whose trials come from <see cref="ListeningTrials"/>.</param>
public sealed record ResolvedExercise(
    Exercise Exercise,
    PlayerProfile Profile,
    ResolvedPair Pair,
    IReadOnlyList<string> Notes,
    IReadOnlyList<ExerciseStep> Steps)
{
    /// <summary>How much longer everything lasts than written; 1 at the written tempo.</summary>
    public double Stretch { get; init; } = 1;

    /// <summary>Beats of a click over the take, from its beginning; null counts the plan's tempo from the beginning of each step, and seconds where it has none.</summary>
    public IReadOnlyList<ClickBeat>? WrittenBeats { get; init; }

    /// <summary>Beats of the count before the take.</summary>
    public int CountInBeats { get; init; } = 4;

    /// <summary>Length of one beat of the count, in seconds.</summary>
    public double BeatSeconds => Stretch * 60 / (Exercise.PlayAlong?.TempoBpm ?? 60);

    /// <summary>Beats of a click over the take at its tempo, in seconds from its beginning.</summary>
    public IReadOnlyList<ClickBeat> Beats => WrittenBeats is { } written
        ? [.. written.Select(beat => beat with { Seconds = Stretch * beat.Seconds })]
        : [.. Steps.SelectMany((step, i) => Enumerable.Range(0, (int)Math.Ceiling((step.DurationSeconds / BeatSeconds) - 1e-9))
            .Select(beat => new ClickBeat(StepStartSeconds(i) + (beat * BeatSeconds), beat == 0)))];

    /// <summary>Length of the whole take in seconds, silence between steps included; 0 for a listening exercise.</summary>
    public double TakeSeconds => Steps.Sum(step => step.DurationSeconds)
        + (Math.Max(0, Steps.Count - 1) * (Exercise.PlayAlong?.GapSeconds ?? 0));

    /// <summary>When a step begins within the take, in seconds.</summary>
    /// <param name="index">Index of the step.</param>
    public double StepStartSeconds(int index) =>
        Steps.Take(index).Sum(step => step.DurationSeconds + (Exercise.PlayAlong?.GapSeconds ?? 0));

    /// <summary>The pitch asked of a tone at a moment of the take, in Hz; null where nothing is asked of it.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="seconds">Seconds from the beginning of the take.</param>
    public double? AskedHz(VoiceRole role, double seconds)
    {
        for (int i = 0; i < Steps.Count; i++)
        {
            double since = seconds - StepStartSeconds(i);
            if (since >= 0 && since < Steps[i].DurationSeconds && Steps[i].Task is PlayTask task)
            {
                AskedPart? part = role == VoiceRole.Played ? task.Played : task.Sung;
                return part?.IsAskedAt(since) == true ? part.Path.FrequencyHz(since) : null;
            }
        }

        return null;
    }
}
