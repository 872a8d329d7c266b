using BrassVox.Practice.Exercises;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Sessions;

/// <summary>What is heard before a take, as steps that only sound.</summary>
internal static class CueSteps
{
    // The set-up of the next tone falls into the silence after this one.
    private const double SilenceSeconds = 0.15;

    /// <summary>The first note of each asked tone, one after another, then both together.</summary>
    public static IReadOnlyList<ExerciseStep> Tones(ResolvedExercise resolved, double toneSeconds)
    {
        SoundingPart[] firsts = [.. new[] { VoiceRole.Played, VoiceRole.Sung }
            .Select(role => FirstOf(resolved, role, toneSeconds - SilenceSeconds))
            .OfType<SoundingPart>()];
        IEnumerable<SoundingPart[]> order = firsts.Length == 2 ? [[firsts[0]], [firsts[1]], firsts] : firsts.Select(part => new[] { part });
        return [.. order.Select(parts => Sound("cue", toneSeconds, parts))];
    }

    /// <summary>The first sung note alone; empty when nothing is sung.</summary>
    public static IReadOnlyList<ExerciseStep> SungTone(ResolvedExercise resolved, double toneSeconds) =>
        FirstOf(resolved, VoiceRole.Sung, toneSeconds - SilenceSeconds) is { } first ? [Sound("cue", toneSeconds, [first])] : [];

    /// <summary>A step as it is meant to sound, both tones throughout.</summary>
    public static ExerciseStep Model(ExerciseStep step)
    {
        var task = (PlayTask)step.Task;
        SoundingPart[] parts = [.. new[] { task.Played, task.Sung }
            .OfType<AskedPart>()
            .Select(part => new SoundingPart(part.Role, part.Path, PathBuilder.Windows(part)))];
        return Sound(step.Id, step.DurationSeconds, parts);
    }

    private static SoundingPart? FirstOf(ResolvedExercise resolved, VoiceRole role, double seconds)
    {
        AskedPart? part = resolved.Steps
            .Select(step => (PlayTask)step.Task)
            .Select(task => role == VoiceRole.Played ? task.Played : task.Sung)
            .FirstOrDefault(asked => asked is not null);
        AskedSegment? first = part?.Segments.FirstOrDefault(segment => segment.Move != Move.Rest);
        return first is null ? null : new SoundingPart(role, PitchPath.Constant(first.FromHz), [new Window(0, seconds)]);
    }

    private static ExerciseStep Sound(string id, double seconds, IReadOnlyList<SoundingPart> parts) =>
        new(id, "", seconds, parts, 0, null, 0, new ListenTask());
}
