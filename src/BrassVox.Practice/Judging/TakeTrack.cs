using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>The frames of one step, held against what the step asks.</summary>
internal sealed class TakeTrack
{
    /// <summary>Left out at both ends of every asked stretch, in seconds: the transient of a note (about 120 ms at each end).</summary>
    public const double EdgeSeconds = 0.15;

    /// <summary>Estimates the tracker itself hardly believes are not heard.</summary>
    private const double LeastConfidence = 0.2;

    // A semitone less what tunings take away; bends within a note are no leap.
    private const double LeastLeapCents = 50;

    private readonly PlayTask _task;
    private readonly IReadOnlyList<Window>? _known;

    /// <summary>Frames outside the step are passed over.</summary>
    /// <param name="step">The step; its task is a <see cref="PlayTask"/>.</param>
    /// <param name="pair">Its pair.</param>
    /// <param name="frames">Frames in order of time.</param>
    /// <param name="stepStartSeconds">When the step begins on the frames' clock.</param>
    /// <param name="known">The stretches, on the frames' clock, in which the player alone was heard; null for all of it.</param>
    /// <param name="sound">The sound of the frames, full scale 1; empty where there is none.</param>
    public TakeTrack(
        ExerciseStep step, ResolvedPair pair, IReadOnlyList<AnalysisFrame> frames, double stepStartSeconds, IReadOnlyList<Window>? known = null, ReadOnlyMemory<float> sound = default)
    {
        Sound = sound;
        _known = known is null ? null : [.. known.Select(window => new Window(window.FromSeconds - stepStartSeconds, window.ToSeconds - stepStartSeconds))];
        Step = step;
        Pair = pair;
        _task = (PlayTask)step.Task;
        Frames = [.. frames.Where(frame => frame.CentreSeconds >= stepStartSeconds && frame.CentreSeconds < stepStartSeconds + step.DurationSeconds
            && KnownWindows.Holds(known, frame.CentreSeconds))];
        StartSeconds = stepStartSeconds;
        HopSeconds = frames.Count > 1 ? (double)(frames[1].FirstSample - frames[0].FirstSample) / frames[0].SampleRateHz : 0.01;
        Played = Points(_task.Played, frame => frame.Played);
        Sung = Points(_task.Sung, frame => frame.Sung);
    }

    public ExerciseStep Step { get; }

    public ResolvedPair Pair { get; }

    /// <summary>P and S of this step where it asks each of them for one held note; the exercise's pair otherwise.</summary>
    public (double PlayedHz, double SungHz) Notes => _task is { Played: { Moves: false } played, Sung: { Moves: false } sung }
        ? (HeldHz(played), HeldHz(sung))
        : (Pair.PlayedHz, Pair.SungHz);

    public double StartSeconds { get; }

    /// <summary>The sound of the frames; empty where there is none.</summary>
    public ReadOnlyMemory<float> Sound { get; }

    public double HopSeconds { get; }

    public IReadOnlyList<AnalysisFrame> Frames { get; }

    /// <summary>P frame by frame; empty when P is not asked for.</summary>
    public IReadOnlyList<SoundedPoint> Played { get; }

    /// <summary>S frame by frame; empty when S is not asked for.</summary>
    public IReadOnlyList<SoundedPoint> Sung { get; }

    public double TimeOf(AnalysisFrame frame) => frame.CentreSeconds - StartSeconds;

    /// <summary>True when the player alone was heard throughout a stretch of the step.</summary>
    public bool IsKnown(double fromSeconds, double toSeconds) =>
        _known is null || _known.Any(window => window.FromSeconds <= fromSeconds + 1e-6 && window.ToSeconds >= toSeconds - 1e-6);

    /// <summary>True when all of the step is known, as it is unless the program's own sound lay in it.</summary>
    public bool IsWhole => IsKnown(0, Step.DurationSeconds);

    /// <summary>The stretches in which a tone is asked for and known; none when it is not asked for.</summary>
    public IReadOnlyList<Window> AskedWindows(VoiceRole role) => Asked(role) is { } part ? KnownWindows.Within(PathBuilder.Windows(part), _known) : [];

    public AskedPart? Asked(VoiceRole role) => role == VoiceRole.Played ? _task.Played : _task.Sung;

    public IReadOnlyList<SoundedPoint> Points(VoiceRole role) => role == VoiceRole.Played ? Played : Sung;

    /// <summary>Points that count towards a pitch: asked for, heard, away from the edges of their stretch and from where the path leaps.</summary>
    public IEnumerable<SoundedPoint> Counted(VoiceRole role)
    {
        Window[] inner = [.. AskedWindows(role).Select(window => new Window(window.FromSeconds + EdgeSeconds, window.ToSeconds - EdgeSeconds))];
        IReadOnlyList<SoundedPoint> points = Points(role);
        (double Seconds, double Edge)[] leaps = Asked(role) is { } part ? [.. Leaps(part)] : [];

        // A late or early end is the player's own edge: its transient is left out as well.
        double first = points.FirstOrDefault(point => point.Cents is not null).Seconds + EdgeSeconds;
        double last = points.LastOrDefault(point => point.Cents is not null).Seconds - EdgeSeconds;
        return points.Where(point => point.Cents is not null && point.Seconds >= first && point.Seconds <= last
            && inner.Any(window => point.Seconds >= window.FromSeconds && point.Seconds <= window.ToSeconds)
            && !leaps.Any(leap => Math.Abs(point.Seconds - leap.Seconds) < leap.Edge));
    }

    /// <summary>The windows that <see cref="Counted"/> tells of, their middles on a clock that begins some seconds before the step.</summary>
    public IEnumerable<SwingWindow> Swings(VoiceRole role, double secondsBefore)
    {
        HashSet<double> counted = [.. Counted(role).Select(point => point.Seconds)];
        IReadOnlyList<SoundedPoint> points = Points(role);
        return Frames.Zip(points)
            .Where(pair => pair.Second.FrequencyHz is not null && counted.Contains(pair.Second.Seconds))
            .Select(pair => new SwingWindow(
                pair.First, pair.Second.Seconds + secondsBefore, Cents.Above(pair.Second.FrequencyHz!.Value, -pair.Second.Cents!.Value), (role == VoiceRole.Played ? pair.First.Sung : pair.First.Played)?.FrequencyHz));
    }

    // From note to note without a rest: each has its transient there. Short notes keep their middle half.
    private static IEnumerable<(double Seconds, double Edge)> Leaps(AskedPart part)
    {
        for (int i = 1; i < part.Segments.Count; i++)
        {
            AskedSegment before = part.Segments[i - 1];
            AskedSegment after = part.Segments[i];
            if (before.Move != Move.Rest && after.Move != Move.Rest && Math.Abs(Cents.Between(before.ToHz, after.FromHz)) > LeastLeapCents)
            {
                double shorter = Math.Min(before.ToSeconds - before.FromSeconds, after.ToSeconds - after.FromSeconds);
                yield return (after.FromSeconds, Math.Min(EdgeSeconds, shorter / 4));
            }
        }
    }

    private static double HeldHz(AskedPart part) => part.Segments.First(segment => segment.Move != Move.Rest).ToHz;

    private SoundedPoint[] Points(AskedPart? part, Func<AnalysisFrame, PitchEstimate?> tone) => part is null ? [] : [.. Frames.Select(frame =>
    {
        double seconds = TimeOf(frame);
        PitchEstimate? heard = tone(frame) is { Confidence: >= LeastConfidence } estimate && estimate.FrequencyHz > 0 ? estimate : null;
        double? cents = heard is { } found ? Cents.Between(part.Path.FrequencyHz(seconds), found.FrequencyHz) : null;
        return new SoundedPoint(
            seconds, heard?.FrequencyHz, cents, heard?.LevelDbfs, frame.Separability == Separability.NotSeparable, part.IsAskedAt(seconds));
    })];
}
