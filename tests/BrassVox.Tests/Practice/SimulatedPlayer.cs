using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Tests.Practice;

/// <summary>Frames that a perfect measurement of a simulated player would give. No code under test makes them.</summary>
internal static class SimulatedPlayer
{
    private const int SampleRateHz = 48000;
    private const int HopSamples = 480;
    private const int WindowSamples = 7680;

    // Two lines of a 160 ms window nearer than this cannot be told apart (1/160 ms).
    private const double FogHz = 6.25;

    /// <summary>Frames of a take that begins at a given second of the stream.</summary>
    public static IReadOnlyList<AnalysisFrame> Frames(ResolvedExercise resolved, SimulatedTone played, SimulatedTone sung, double startSeconds = 1.0)
    {
        List<AnalysisFrame> frames = [];
        double end = startSeconds + resolved.TakeSeconds + 0.3;
        for (long first = 0; first < end * SampleRateHz; first += HopSamples)
        {
            double take = ((first + (WindowSamples / 2.0)) / SampleRateHz) - startSeconds;
            frames.Add(Frame(first, resolved, played, sung, take));
        }

        return frames;
    }

    private static AnalysisFrame Frame(long first, ResolvedExercise resolved, SimulatedTone played, SimulatedTone sung, double take)
    {
        double? playedHz = Hz(resolved, VoiceRole.Played, played, take);
        double? sungHz = Hz(resolved, VoiceRole.Sung, sung, take);
        double playedDb = LevelDb(resolved, VoiceRole.Played, played, take) + GrowthDb(resolved, played, take);
        double sungDb = LevelDb(resolved, VoiceRole.Sung, sung, take);
        if (playedHz is not { } p || sungHz is not { } s)
        {
            Separability one = playedHz is null && sungHz is null ? Separability.Silent : Separability.OneTone;
            return new AnalysisFrame(first, WindowSamples, SampleRateHz, one == Separability.Silent ? -90 : -20,
                Estimate(playedHz, playedDb), Estimate(sungHz, sungDb), null, one);
        }

        BeatingPair? nearest = BeatingPairs.Of(p, s, 6, 40).Cast<BeatingPair?>().MinBy(pair => pair!.Value.PlayedHarmonic + pair.Value.SungHarmonic);
        bool isFog = BeatingPairs.Of(p, s, 6, FogHz).Any(pair => pair.SungHarmonic == 1 || pair.PlayedHarmonic == 1);
        return new AnalysisFrame(first, WindowSamples, SampleRateHz, -20,
            Estimate(p, playedDb), isFog ? null : Estimate(s, sungDb), nearest?.RateHz, isFog ? Separability.NotSeparable : Separability.Separable);
    }

    private static PitchEstimate? Estimate(double? hz, double levelDb) => hz is { } known ? new PitchEstimate(known, levelDb, 0.9) : null;

    private static double? Hz(ResolvedExercise resolved, VoiceRole role, SimulatedTone tone, double take)
    {
        (AskedPart Part, double Seconds)? asked = Asked(resolved, role, take);
        return asked is { } found && found.Part.IsAskedAt(found.Seconds) && tone.IsSounding(take)
            ? Cents.Above(found.Part.Path.FrequencyHz(found.Seconds), tone.Cents(take, resolved.TakeSeconds))
            : null;
    }

    // Only where the balance is judged: the first stretch as loud as the voice, each further one louder.
    private static double GrowthDb(ResolvedExercise resolved, SimulatedTone tone, double take)
    {
        if (Asked(resolved, VoiceRole.Played, take) is not { } asked
            || !resolved.Steps.Any(step => ((PlayTask)step.Task).Criteria.OfType<BrassVox.Practice.Judging.BalanceCriterion>().Any()))
        {
            return 0;
        }

        return tone.GrowsByDb * asked.Part.Segments.Count(segment => segment.Move == Move.Rest && segment.ToSeconds <= asked.Seconds);
    }

    /// <summary>A Hann window on an abrupt onset holds the part of its area that lies after the onset.</summary>
    private static double LevelDb(ResolvedExercise resolved, VoiceRole role, SimulatedTone tone, double take)
    {
        double window = (double)WindowSamples / SampleRateHz;
        bool Sounds(double at) => Hz(resolved, role, tone, at) is not null;
        if (Sounds(take) && Sounds(take - (0.5 * window)) && Sounds(take + (0.5 * window)))
        {
            return -20;
        }

        double sum = 0;
        double all = 0;
        for (int i = 0; i < 64; i++)
        {
            double u = (i + 0.5) / 64;
            double weight = 1 - Math.Cos(2 * Math.PI * u);
            all += weight;
            double at = take + ((u - 0.5) * window);
            sum += Sounds(at) ? weight : 0;
        }

        return -20 + (20 * Math.Log10(Math.Max(sum / all, 1e-4)));
    }

    private static (AskedPart Part, double Seconds)? Asked(ResolvedExercise resolved, VoiceRole role, double take)
    {
        for (int i = 0; i < resolved.Steps.Count; i++)
        {
            double since = take - resolved.StepStartSeconds(i);
            var task = (PlayTask)resolved.Steps[i].Task;
            if (since >= 0 && since < resolved.Steps[i].DurationSeconds && (role == VoiceRole.Played ? task.Played : task.Sung) is { } part)
            {
                return (part, since);
            }
        }

        return null;
    }
}
