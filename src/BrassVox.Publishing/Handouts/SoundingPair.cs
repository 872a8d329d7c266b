using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>A played and a sung tone that an exercise holds at the same time.</summary>
/// <param name="Played">P, by name.</param>
/// <param name="Sung">S, by name.</param>
/// <param name="PlayedHz">P in Hz.</param>
/// <param name="SungHz">S in Hz.</param>
/// <param name="FromSeconds">When they first sound together, from the beginning of the take, in seconds.</param>
internal sealed record SoundingPair(Pitch Played, Pitch Sung, double PlayedHz, double SungHz, double FromSeconds)
{
    // Shorter than this, two tones only pass each other.
    private const double ShortestSeconds = 0.25;

    /// <summary>The pairs of an exercise in the order in which they come, each once. Tones that glide make no pair.</summary>
    /// <param name="resolved">The exercise.</param>
    public static IReadOnlyList<SoundingPair> Of(ResolvedExercise resolved)
    {
        List<SoundingPair> pairs = [];
        for (int i = 0; i < resolved.Steps.Count; i++)
        {
            ExerciseStep step = resolved.Steps[i];
            Stretch[] sung = [.. Held(step, VoiceRole.Sung, resolved.Pair.A4Hz)];
            foreach (Stretch below in Held(step, VoiceRole.Played, resolved.Pair.A4Hz))
            {
                foreach (Stretch above in sung.Where(above => Math.Min(above.To, below.To) - Math.Max(above.From, below.From) >= ShortestSeconds))
                {
                    SoundingPair pair = new(below.Note, above.Note, below.Hz, above.Hz, resolved.StepStartSeconds(i) + Math.Max(below.From, above.From));
                    if (!pairs.Any(other => other.IsAsGoodAs(pair)))
                    {
                        pairs.Add(pair);
                    }
                }
            }
        }

        return pairs;
    }

    private bool IsAsGoodAs(SoundingPair other) =>
        Math.Abs(Cents.Between(PlayedHz, other.PlayedHz)) < 0.5 && Math.Abs(Cents.Between(SungHz, other.SungHz)) < 0.5;

    private static IEnumerable<Stretch> Held(ExerciseStep step, VoiceRole role, double a4Hz)
    {
        var task = step.Task as PlayTask;
        if ((role == VoiceRole.Played ? task?.Played : task?.Sung) is { } asked)
        {
            return asked.Segments
                .Where(segment => segment.Move != Move.Rest && segment.FromHz == segment.ToHz)
                .Select(segment => new Stretch(segment.FromSeconds, segment.ToSeconds, segment.Note, segment.FromHz));
        }

        return step.Sounding.Where(part => part.Role == role).SelectMany(part => part.Windows.Select(window =>
        {
            double hz = part.Path.FrequencyHz(window.FromSeconds);
            return new Stretch(window.FromSeconds, window.ToSeconds, NearestNote.Of(hz, a4Hz).Note, hz);
        }));
    }

    private readonly record struct Stretch(double From, double To, Pitch Note, double Hz);
}
