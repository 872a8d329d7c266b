using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Demo;

/// <summary>A take that nobody played: as frames, such as a perfect measurement would give, or as sound to be measured like any other.</summary>
/// <param name="exercise">A resolved play-along exercise.</param>
/// <param name="played">What the player does with P.</param>
/// <param name="sung">What the player does with S.</param>
public sealed class SimulatedTake(ResolvedExercise exercise, SimulatedTone played, SimulatedTone sung)
{
    /// <summary>Silence before the take, in seconds.</summary>
    public const double StartSeconds = 0.3;

    private const double TailSeconds = 0.2;
    private const int Harmonics = 10;
    private const double LevelDbfs = -22;
    private const double RampSeconds = 0.03;

    // Two lines of a 160 ms window nearer than this cannot be told apart.
    private const double FogHz = 6.25;
    private const int NearestHarmonic = 6;
    private const double FarthestBeatHz = 40;

    /// <summary>Frames, 25 a second, on a clock on which the take begins at <see cref="StartSeconds"/>.</summary>
    /// <param name="sampleRateHz">Rate of the clock in Hz.</param>
    public IReadOnlyList<AnalysisFrame> Frames(int sampleRateHz)
    {
        int hop = sampleRateHz / 25;
        int window = sampleRateHz * 16 / 100;
        List<AnalysisFrame> frames = [];
        for (long first = 0; first < (StartSeconds + exercise.TakeSeconds + TailSeconds) * sampleRateHz; first += hop)
        {
            frames.Add(Frame(first, window, sampleRateHz));
        }

        return frames;
    }

    /// <summary>The sound: two harmonic tones, mono, full scale 1.</summary>
    /// <param name="sampleRateHz">Rate in Hz.</param>
    public float[] Sound(int sampleRateHz)
    {
        float[] sound = new float[(int)((StartSeconds + exercise.TakeSeconds + TailSeconds) * sampleRateHz)];
        Add(sound, sampleRateHz, VoiceRole.Played, 1.2);
        Add(sound, sampleRateHz, VoiceRole.Sung, 1.7);
        return sound;
    }

    private void Add(float[] sound, int sampleRateHz, VoiceRole role, double fall)
    {
        double gain = Math.Pow(10, LevelDbfs / 20) * Math.Sqrt(2);
        double turn = 0;
        double level = 0;
        double step = 1 / (RampSeconds * sampleRateHz);
        double hz = 0;
        for (int i = 0; i < sound.Length; i++)
        {
            double? asked = Hz(role, ((double)i / sampleRateHz) - StartSeconds);
            level = Math.Clamp(level + (asked is null ? -step : step), 0, 1);
            hz = asked ?? hz;
            turn += hz / sampleRateHz;
            turn -= Math.Floor(turn);
            for (int k = 1; level > 0 && k <= Harmonics; k++)
            {
                sound[i] += (float)(gain * level * Math.Pow(k, -fall) * Math.Sin(2 * Math.PI * k * turn));
            }
        }
    }

    private AnalysisFrame Frame(long first, int window, int sampleRateHz)
    {
        double take = ((first + (0.5 * window)) / sampleRateHz) - StartSeconds;
        double? p = Hz(VoiceRole.Played, take);
        double? s = Hz(VoiceRole.Sung, take);
        if (p is not { } playedHz || s is not { } sungHz)
        {
            Separability found = p is null && s is null ? Separability.Silent : Separability.OneTone;
            return new AnalysisFrame(first, window, sampleRateHz, found == Separability.Silent ? -80 : LevelDbfs, Told(p), Told(s), null, found);
        }

        BeatingPair? nearest = BeatingPairs.Of(playedHz, sungHz, NearestHarmonic, FarthestBeatHz).Cast<BeatingPair?>()
            .MinBy(pair => pair!.Value.PlayedHarmonic + pair.Value.SungHarmonic);
        bool isFog = BeatingPairs.Of(playedHz, sungHz, 3, FogHz).Any(pair => pair.SungHarmonic == 1 || pair.PlayedHarmonic == 1);
        return isFog
            ? new AnalysisFrame(first, window, sampleRateHz, LevelDbfs, null, null, nearest?.RateHz, Separability.NotSeparable)
            : new AnalysisFrame(first, window, sampleRateHz, LevelDbfs, Told(p), Told(s), nearest?.RateHz, Separability.Separable);
    }

    private static PitchEstimate? Told(double? hz) => hz is { } known ? new PitchEstimate(known, LevelDbfs, 0.9) : null;

    private double? Hz(VoiceRole role, double take)
    {
        SimulatedTone tone = role == VoiceRole.Played ? played : sung;
        if (take < tone.LateSeconds || Asked(role, take) is not { } asked || !asked.Part.IsAskedAt(asked.Seconds))
        {
            return null;
        }

        double pull = 0;
        if (tone.PullCents != 0 && Asked(role == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played, take) is { } other)
        {
            double moved = Theory.Cents.Between(other.Part.Path.FrequencyHz(0), other.Part.Path.FrequencyHz(other.Seconds));
            pull = tone.PullCents * moved / 100;
        }

        return Theory.Cents.Above(asked.Part.Path.FrequencyHz(asked.Seconds), tone.Cents(take, exercise.TakeSeconds) + pull);
    }

    private (AskedPart Part, double Seconds)? Asked(VoiceRole role, double take)
    {
        for (int i = 0; i < exercise.Steps.Count; i++)
        {
            double since = take - exercise.StepStartSeconds(i);
            var task = (PlayTask)exercise.Steps[i].Task;
            if (since >= 0 && since < exercise.Steps[i].DurationSeconds && (role == VoiceRole.Played ? task.Played : task.Sung) is { } part)
            {
                return (part, since);
            }
        }

        return null;
    }
}
