using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>A bar of a passage, as a sheet shows it.</summary>
/// <param name="Number">Its number, as its notes' places have it.</param>
/// <param name="FromSeconds">When it begins within the take, in seconds.</param>
/// <param name="ToSeconds">When the next one begins, or the take ends, in seconds.</param>
internal sealed record SheetBar(int Number, double FromSeconds, double ToSeconds)
{
    private const double Rounding = 1e-6;

    /// <summary>The bars of a passage at its tempo; none of what is no passage.</summary>
    /// <param name="resolved">What is asked.</param>
    public static IReadOnlyList<SheetBar> Of(ResolvedExercise resolved)
    {
        double[] starts = resolved.WrittenBeats is null ? [] : [.. resolved.Beats.Where(beat => beat.IsFirst).Select(beat => beat.Seconds)];
        AskedSegment? labelled = Segments(resolved, VoiceRole.Played).Concat(Segments(resolved, VoiceRole.Sung)).FirstOrDefault(segment => segment.Label is not null);
        if (starts.Length == 0 || labelled is null || !int.TryParse(labelled.Label!.Split('.')[0], NumberStyles.None, CultureInfo.InvariantCulture, out int number))
        {
            return [];
        }

        int first = number - starts.Count(start => start <= labelled.FromSeconds + Rounding) + 1;
        return [.. starts.Select((start, i) => new SheetBar(first + i, start, i + 1 < starts.Length ? starts[i + 1] : resolved.TakeSeconds))];
    }

    /// <summary>The notes of a tone that begin in the bar.</summary>
    /// <param name="resolved">The passage.</param>
    /// <param name="role">The tone.</param>
    public IEnumerable<AskedSegment> Begun(ResolvedExercise resolved, VoiceRole role) => Segments(resolved, role)
        .Where(segment => segment.Move != Move.Rest && segment.FromSeconds >= FromSeconds - Rounding && segment.FromSeconds < ToSeconds - Rounding);

    /// <summary>True when a note of the tone that began before the bar still sounds in it.</summary>
    /// <param name="resolved">The passage.</param>
    /// <param name="role">The tone.</param>
    public bool IsHeldInto(ResolvedExercise resolved, VoiceRole role) => Segments(resolved, role)
        .Any(segment => segment.Move != Move.Rest && segment.FromSeconds < FromSeconds - Rounding && segment.ToSeconds > FromSeconds + Rounding);

    // A passage is one step: its seconds are those of the take.
    private static IEnumerable<AskedSegment> Segments(ResolvedExercise resolved, VoiceRole role) => resolved.Steps
        .Select(step => step.Task).OfType<PlayTask>()
        .SelectMany(task => (role == VoiceRole.Played ? task.Played : task.Sung)?.Segments ?? []);
}
