using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>Turns motions into notes, Hz and seconds.</summary>
internal static class PathBuilder
{
    /// <summary>A pitch reached "at once" takes this long in a <see cref="PitchPath"/>, whose times must rise.</summary>
    private const double StepSeconds = 0.01;

    /// <summary>Builds the part of one tone.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="motions">At least one motion.</param>
    /// <param name="from">The note that intervals count from.</param>
    /// <param name="pair">Tuning and A4.</param>
    /// <param name="tempoBpm">Tempo for beats; null when none are used.</param>
    /// <param name="anchor">What "over" and "resultant" lean on; null where neither is used.</param>
    public static AskedPart Build(
        VoiceRole role, IReadOnlyList<Motion> motions, Pitch from, ResolvedPair pair, double? tempoBpm, PathAnchor? anchor = null)
    {
        List<AskedSegment> segments = [];
        List<(double Seconds, double Hz)> points = [];
        double start = 0;
        double hzNow = pair.Tuning.FrequencyHz(from, pair.A4Hz);
        foreach (Motion motion in motions)
        {
            double length = motion.Seconds ?? (60.0 * motion.Beats!.Value / tempoBpm!.Value);
            double end = start + length;
            if (motion.Move == Move.Rest)
            {
                segments.Add(new AskedSegment(Move.Rest, start, end, from, 0, 0, 0));
            }
            else
            {
                (Pitch note, double placeHz) = Place(motion, from, pair, start, anchor);
                double hz = Cents.Above(placeHz, motion.Cents) + motion.Hz;
                double begins = motion.Move == Move.Glide ? hzNow : hz;
                double noteHz = pair.Tuning.FrequencyHz(note, pair.A4Hz);
                segments.Add(new AskedSegment(motion.Move, start, end, note, Cents.Between(noteHz, hz), begins, hz) { Label = motion.Label });
                if (motion.Move == Move.Hold)
                {
                    AddPoint(points, start, hz);
                }

                AddPoint(points, end, hz);
                hzNow = hz;
            }

            start = end;
        }

        if (points.Count == 0)
        {
            points.Add((0, hzNow));
        }

        return new AskedPart(role, new PitchPath([.. points]), segments);
    }

    /// <summary>Length of a part in seconds; 0 for none.</summary>
    public static double Length(AskedPart? part) => part is null ? 0 : part.Segments[^1].ToSeconds;

    /// <summary>The stretches in which a part is asked for, joined where they touch.</summary>
    public static IReadOnlyList<Window> Windows(AskedPart part)
    {
        List<Window> windows = [];
        foreach (AskedSegment segment in part.Segments.Where(segment => segment.Move != Move.Rest))
        {
            if (windows.Count > 0 && windows[^1].ToSeconds >= segment.FromSeconds)
            {
                windows[^1] = windows[^1] with { ToSeconds = segment.ToSeconds };
            }
            else
            {
                windows.Add(new Window(segment.FromSeconds, segment.ToSeconds));
            }
        }

        return windows;
    }

    private static (Pitch Note, double Hz) Place(Motion motion, Pitch from, ResolvedPair pair, double seconds, PathAnchor? anchor)
    {
        (Pitch, double)? leaning = (motion.Over, motion.Resultant) switch
        {
            ({ } over, _) => anchor?.Over(over, seconds, pair),
            (_, { } name) => anchor?.Resultant(name),
            _ => null,
        };
        Pitch note = (motion.To ?? motion.Over ?? default).From(from);
        return leaning ?? (note, pair.Tuning.FrequencyHz(note, pair.A4Hz));
    }

    private static void AddPoint(List<(double Seconds, double Hz)> points, double seconds, double hz)
    {
        if (points.Count == 0 || seconds > points[^1].Seconds)
        {
            points.Add((seconds, hz));
        }
        else if (hz != points[^1].Hz)
        {
            points.Add((points[^1].Seconds + StepSeconds, hz));
        }
    }
}
