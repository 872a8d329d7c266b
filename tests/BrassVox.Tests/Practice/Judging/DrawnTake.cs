using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Steps and frames drawn by hand, every 10 ms at full hundredths of a second, so that what a judge makes of them can be reckoned on paper. No code under test makes them.</summary>
internal static class DrawnTake
{
    public const double HopSeconds = 0.01;
    private const int SampleRateHz = 48000;
    private const int WindowSamples = 7680;

    /// <summary>A frequency so many cents above another.</summary>
    public static double Up(double hz, double cents) => hz * Math.Pow(2, cents / 1200);

    /// <summary>One tone asked for: stretches that follow each other, 0 Hz for a rest.</summary>
    public static AskedPart Part(VoiceRole role, params (double FromSeconds, double ToSeconds, double Hz)[] stretches)
    {
        List<AskedSegment> segments = [];
        List<(double, double)> points = [];
        foreach ((double from, double to, double hz) in stretches)
        {
            segments.Add(new AskedSegment(hz == 0 ? Move.Rest : Move.Hold, from, to, Pitch.Parse("Bb2"), 0, hz, hz) { Label = $"1.{segments.Count + 1}" });
            if (hz != 0)
            {
                points.Add((from, hz));
                points.Add((to - 1e-4, hz));
            }
        }

        return new AskedPart(role, new PitchPath([.. points]), segments);
    }

    /// <summary>One frame; a tone that is null is not found. Without a word on separability it follows from the tones.</summary>
    public static AnalysisFrame Frame(
        int hundredths, double? playedHz, double? sungHz, double? beats = null, double? below = null, Separability? separability = null,
        double playedDb = -20, double sungDb = -20, double confidence = 0.9) => new(
            (480L * hundredths) - (WindowSamples / 2), WindowSamples, SampleRateHz, -20,
            playedHz is { } p ? new PitchEstimate(p, playedDb, confidence) : null,
            sungHz is { } s ? new PitchEstimate(s, sungDb, confidence) : null,
            beats,
            separability ?? ((playedHz, sungHz) switch { (null, null) => Separability.Silent, (null, _) or (_, null) => Separability.OneTone, _ => Separability.Separable }))
        {
            BeatsBelowHz = below,
        };

    /// <summary>A frame in which the two tones cannot be told apart.</summary>
    public static AnalysisFrame Fog(int hundredths, double? beats = null, double? below = null) => Frame(hundredths, null, null, beats, below, Separability.NotSeparable);

    /// <summary>Frames for a stretch of time, in hundredths of a second, the end left out.</summary>
    public static AnalysisFrame[] Frames(int from, int to, Func<int, AnalysisFrame> at) => [.. Enumerable.Range(from, to - from).Select(at)];

    /// <summary>A step.</summary>
    public static ExerciseStep Step(double seconds, AskedPart? played, AskedPart? sung, params Criterion[] criteria) =>
        new("step", "", seconds, [], 0, null, 0, new PlayTask(played, sung, criteria));

    /// <summary>The pair of a step.</summary>
    public static ResolvedPair Pair(double playedHz, double sungHz) =>
        new(Pitch.Parse("Bb2"), Pitch.Parse("F3"), playedHz, sungHz, Tuning.TryParse("equal", Pitch.Parse("Bb2"), out Tuning? equal) ? equal : throw new InvalidOperationException(), 440);

    /// <summary>A step of its own that begins at 0 s, with frames laid over it.</summary>
    public static TakeTrack Track(double seconds, AskedPart? played, AskedPart? sung, IReadOnlyList<AnalysisFrame> frames, IReadOnlyList<Window>? known = null) =>
        new(Step(seconds, played, sung), PairOf(played, sung), frames, 0, known);

    /// <summary>An exercise of one step, whose take begins at 0 s.</summary>
    public static ResolvedExercise Exercise(double seconds, AskedPart? played, AskedPart? sung, params Criterion[] criteria) =>
        Exercise(1, PairOf(played, sung), Step(seconds, played, sung, criteria));

    /// <summary>An exercise of some steps, one after the other without a gap.</summary>
    public static ResolvedExercise Exercise(double passShare, ResolvedPair pair, params ExerciseStep[] steps)
    {
        Exercise home = ShippedExercises.Find("open-home-pair");
        return new ResolvedExercise(
            home with { PlayAlong = home.PlayAlong! with { GapSeconds = 0, PassShare = passShare } },
            PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low) with { Aim = Grade.II }, pair, [], steps);
    }

    private static ResolvedPair PairOf(AskedPart? played, AskedPart? sung) => Pair(FirstHz(played) ?? 100, FirstHz(sung) ?? 150);

    private static double? FirstHz(AskedPart? part) => part?.Segments.First(segment => segment.Move != Move.Rest).ToHz;
}
