using BrassVox.Practice.Exercises;
using BrassVox.Synthesis;
using BrassVox.Theory;

namespace BrassVox.Practice.Sessions;

/// <summary>Writes steps as events for a pair engine. Pure: the same steps give the same events.</summary>
public static class PairScript
{
    /// <summary>A step's set-up is posted this long before it sounds, so that no fade is heard; the engine is silent then.</summary>
    public const double SetUpSeconds = 0.06;

    /// <summary>Gain at which a part is silent, in dB.</summary>
    public const float SilentDb = -80f;

    private const float FadeSeconds = 0.05f;

    /// <summary>Events of one step, in order of time.</summary>
    /// <param name="step">The step.</param>
    /// <param name="parts">Parts of the engine, see <see cref="IPairEngine.Parts"/>.</param>
    /// <param name="sampleRateHz">Rate of the engine in Hz.</param>
    /// <param name="startSample">Engine sample at which the step begins; its set-up comes <see cref="SetUpSeconds"/> earlier.</param>
    public static IReadOnlyList<PairEvent> Of(ExerciseStep step, IReadOnlyList<PairPart> parts, int sampleRateHz, long startSample)
    {
        long At(double seconds) => startSample + (long)Math.Round(seconds * sampleRateHz);

        Window[] windows = [.. step.Sounding.SelectMany(part => part.Windows)];
        if (windows.Length == 0)
        {
            return [];
        }

        double first = windows.Min(window => window.FromSeconds);
        double last = windows.Max(window => window.ToSeconds);
        long setUp = At(first - SetUpSeconds);
        List<PairEvent> events = [.. Coupled(step, first, last, setUp, At)];
        events.AddRange(parts.Skip(2).Select(part => PairEvent.Gain(part.Index, ResultantGainDb(step, part.Name), FadeSeconds, setUp)));
        foreach (VoiceRole role in new[] { VoiceRole.Played, VoiceRole.Sung })
        {
            SoundingPart? sounding = step.Sounding.FirstOrDefault(part => part.Role == role);
            bool atFirst = sounding is not null && sounding.Windows[0].FromSeconds <= first;
            events.Add(PairEvent.Gain((int)role, atFirst ? 0 : SilentDb, FadeSeconds, setUp));
            if (sounding is null)
            {
                continue;
            }

            // Second 0 of a path is the step's beginning; the set-up slide is over before anything is heard.
            events.Add(PairEvent.Pitch(role, PitchPath.Constant(sounding.Path.FrequencyHz(0)), setUp));
            events.Add(PairEvent.Pitch(role, sounding.Path, At(0)));
            foreach (Window window in sounding.Windows)
            {
                if (window.FromSeconds > first)
                {
                    events.Add(PairEvent.Gain((int)role, 0, FadeSeconds, At(window.FromSeconds)));
                }

                if (window.ToSeconds < last)
                {
                    events.Add(PairEvent.Gain((int)role, SilentDb, FadeSeconds, At(window.ToSeconds)));
                }
            }
        }

        events.Add(PairEvent.Start(At(first)));
        events.Add(PairEvent.Stop(At(last)));
        return [.. events.OrderBy(item => item.AtSample)];
    }

    /// <summary>A whole take as it is meant to sound, in order of time.</summary>
    /// <param name="resolved">A resolved play-along exercise.</param>
    /// <param name="parts">Parts of the engine, see <see cref="IPairEngine.Parts"/>.</param>
    /// <param name="sampleRateHz">Rate of the engine in Hz.</param>
    /// <param name="startSample">Engine sample at which the take begins.</param>
    /// <param name="couplingDepth">Depth of the coupling, 0 to 1.</param>
    public static IReadOnlyList<PairEvent> Model(
        ResolvedExercise resolved, IReadOnlyList<PairPart> parts, int sampleRateHz, long startSample, double couplingDepth) =>
        [.. resolved.Steps.SelectMany((step, i) => Of(
            CueSteps.Model(step) with { CouplingDepth = couplingDepth }, parts, sampleRateHz,
            startSample + (long)Math.Round(resolved.StepStartSeconds(i) * sampleRateHz)))];

    // Two tones make a third while both sound. The engine's tones keep a pitch in their rests, and would go on making it.
    private static IEnumerable<PairEvent> Coupled(ExerciseStep step, double first, double last, long setUp, Func<double, long> at)
    {
        float depth = (float)step.CouplingDepth;
        Window[] both =
        [
            .. from played in step.Sounding.Where(part => part.Role == VoiceRole.Played).SelectMany(part => part.Windows)
               from sung in step.Sounding.Where(part => part.Role == VoiceRole.Sung).SelectMany(part => part.Windows)
               let window = new Window(Math.Max(played.FromSeconds, sung.FromSeconds), Math.Min(played.ToSeconds, sung.ToSeconds))
               where window.ToSeconds > window.FromSeconds
               orderby window.FromSeconds
               select window,
        ];
        yield return PairEvent.Coupling(both.Length > 0 && both[0].FromSeconds <= first ? depth : 0, FadeSeconds, setUp);
        for (int i = 0; i < both.Length; i++)
        {
            if (both[i].FromSeconds > first && (i == 0 || both[i].FromSeconds > both[i - 1].ToSeconds))
            {
                yield return PairEvent.Coupling(depth, FadeSeconds, at(both[i].FromSeconds));
            }

            if (both[i].ToSeconds < last && (i == both.Length - 1 || both[i + 1].FromSeconds > both[i].ToSeconds))
            {
                yield return PairEvent.Coupling(0, FadeSeconds, at(both[i].ToSeconds));
            }
        }
    }

    private static float ResultantGainDb(ExerciseStep step, string name) =>
        step.Resultants is null || step.Resultants.Contains(name, StringComparer.Ordinal) ? (float)step.ResultantGainDb : SilentDb;
}
