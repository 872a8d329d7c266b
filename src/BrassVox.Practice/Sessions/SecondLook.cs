using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.Practice.Sessions;

/// <summary>
/// Measures a take, and once more where most of what was asked is not found: on the clock of a player who began late or early, and with
/// the octaves beside the asked notes, or any note of the voice, or of the lips. The tracker is told where to look; a whole take beside its clock or on another note it would miss.
/// </summary>
internal static class SecondLook
{
    /// <summary>A player this far off the clock is still met by the tracker, in seconds.</summary>
    public const double OnClockSeconds = 0.5;

    private const double FarthestSeconds = 4;
    private const double FoundShare = 0.5;
    private const double BetterBy = 1.1;

    // At the edge of where it is looked for a tone is told in part only, and in a wrong middle.
    private const double WellFoundShare = 0.7;
    private const double LeastBorneOutSeconds = 0.5;

    // A note that is held, whichever it is: a vibrato of a semitone to each side stays within.
    private const double HeldCents = 100;

    /// <summary>The frames that explain a take best, where it begins for the judge, and how late it began, in seconds.</summary>
    public static (IReadOnlyList<AnalysisFrame> Frames, double StartSeconds, double LateSeconds) Of(
        ResolvedExercise exercise, float[] samples, int sampleRateHz, TrackerFactory factory, double startSeconds, IReadOnlyList<Window>? known = null)
    {
        IReadOnlyList<AnalysisFrame> frames = Known(TakeAnalysis.Frames(exercise, samples, sampleRateHz, factory, startSeconds), known);
        (double all, double alone) = KnownWindows.Asked(exercise, startSeconds, known);
        double share = alone / all;
        double asked = share * Asked(exercise);
        double near = NearSeconds(exercise, frames, startSeconds);
        double late = known is not null ? 0 : LateSeconds(exercise, samples, sampleRateHz, startSeconds);
        if (Math.Abs(late) is > OnClockSeconds and <= FarthestSeconds)
        {
            IReadOnlyList<AnalysisFrame> shifted = TakeAnalysis.Frames(exercise, samples, sampleRateHz, factory, startSeconds + late);
            double there = NearSeconds(exercise, shifted, startSeconds + late);
            if (there >= FoundShare * asked && there > BetterBy * near)
            {
                return (shifted, startSeconds + late, late);
            }
        }

        // Where both lie on one line, nothing the tracker was told to look for speaks against the asked octave.
        bool isFog = frames.Count(frame => frame.Separability == Separability.NotSeparable) > FoundShare * frames.Count;
        double askedOfVoice = share * Asked(exercise, VoiceRole.Sung);
        bool isVoiceFound = NearSeconds(exercise, frames, startSeconds, VoiceRole.Sung) >= WellFoundShare * askedOfVoice;
        bool areLipsFound = NearSeconds(exercise, frames, startSeconds, VoiceRole.Played) >= WellFoundShare * share * Asked(exercise, VoiceRole.Played);
        if ((isVoiceFound && areLipsFound && !isFog) || askedOfVoice <= 0)
        {
            return (frames, startSeconds, 0);
        }

        IReadOnlyList<AnalysisFrame>? free = null;
        if (!isVoiceFound || isFog)
        {
            IReadOnlyList<AnalysisFrame> wide = Look(NoteSearch.OctavesBesideVoice);
            if (OctaveSeconds(exercise, wide, startSeconds) >= FoundShare * askedOfVoice && IsNear(wide, VoiceRole.Played))
            {
                return (wide, startSeconds, 0);
            }

            IReadOnlyList<AnalysisFrame> open = Look(NoteSearch.AnyVoice);
            foreach (IReadOnlyList<AnalysisFrame> looked in new[] { open, wide })
            {
                if (IsOther(looked, VoiceRole.Sung))
                {
                    return (looked, startSeconds, 0);
                }
            }
        }

        // Fog where none was asked for speaks neither for the lips nor against them.
        bool mayBeOther = isFog ? !PairCriteria.IsFog(exercise.Pair.PlayedHz, exercise.Pair.SungHz) : !areLipsFound;
        IReadOnlyList<AnalysisFrame> lips = mayBeOther ? Look(NoteSearch.AnyLips) : [];
        return IsOther(lips, VoiceRole.Played) ? (lips, startSeconds, 0) : (frames, startSeconds, 0);

        bool IsNear(IReadOnlyList<AnalysisFrame> looked, VoiceRole role) => NearSeconds(exercise, looked, startSeconds, role) >= FoundShare * share * Asked(exercise, role);

        // Where the other tone is not at its place, what is taken for this one may be that.
        bool IsOther(IReadOnlyList<AnalysisFrame> looked, VoiceRole role) => IsNear(looked, role == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played)
            && OtherNoteSeconds(exercise, looked, startSeconds, role) >= Math.Max(FoundShare * share * Asked(exercise, role), double.Epsilon)
            && IsBorneOut(looked, free ??= Look(NoteSearch.AnyPair));

        IReadOnlyList<AnalysisFrame> Look(NoteSearch search) => Known(TakeAnalysis.Frames(exercise, samples, sampleRateHz, factory, startSeconds, search), known);
    }

    // Whole windows only: one that reaches into what is not known holds some of it.
    private static IReadOnlyList<AnalysisFrame> Known(IReadOnlyList<AnalysisFrame> frames, IReadOnlyList<Window>? known) => known is null ? frames :
    [
        .. frames.Where(frame =>
        {
            double half = 0.5 * frame.LengthSamples / frame.SampleRateHz;
            return known.Any(window => frame.CentreSeconds - half >= window.FromSeconds && frame.CentreSeconds + half <= window.ToSeconds);
        }),
    ];

    private static double Asked(ResolvedExercise exercise, VoiceRole? role = null) => Parts(exercise).Where(asked => (role ?? asked.Part.Role) == asked.Part.Role).Sum(asked => PathBuilder.Windows(asked.Part).Sum(window => window.ToSeconds - window.FromSeconds));

    private static double LateSeconds(ResolvedExercise exercise, float[] samples, int sampleRateHz, double startSeconds)
    {
        int from = Math.Clamp((int)((startSeconds - OnClockSeconds) * sampleRateHz), 0, samples.Length);
        double began = ((double)from / sampleRateHz) + TakeAnalysis.FindStartSeconds(samples.AsSpan(from), sampleRateHz);
        return began - startSeconds - Parts(exercise).Min(asked => asked.StartSeconds + PathBuilder.Windows(asked.Part).Min(window => window.FromSeconds));
    }

    private static double NearSeconds(ResolvedExercise exercise, IReadOnlyList<AnalysisFrame> frames, double startSeconds, VoiceRole? of = null) =>
        Seconds(exercise, frames, startSeconds, (role, cents, isFog) => (of ?? role) == role && (isFog || Math.Abs(cents) <= TakeAnalysis.BeyondCents));

    // S told apart from P, and whole octaves from where it was asked.
    private static double OctaveSeconds(ResolvedExercise exercise, IReadOnlyList<AnalysisFrame> frames, double startSeconds) =>
        Seconds(exercise, frames, startSeconds, (role, cents, isFog) => role == VoiceRole.Sung && !isFog && Math.Abs(Math.Abs(cents) - 1200) <= HeldCents);

    // A search with one tone left open always finds something. It stands where a search that is told no note at all finds the same pair, or none.
    private static bool IsBorneOut(IReadOnlyList<AnalysisFrame> looked, IReadOnlyList<AnalysisFrame> free)
    {
        bool[] alike = [.. looked.Zip(free).Select(pair => (Looked: Pair(pair.First), Free: Pair(pair.Second)))
            .Where(pair => pair is { Looked: not null, Free: not null })
            .Select(pair => IsSame(pair.Looked!.Value.Lower, pair.Free!.Value.Lower) && IsSame(pair.Looked!.Value.Upper, pair.Free!.Value.Upper))];
        return alike.Length * HopSeconds(looked) < LeastBorneOutSeconds || alike.Count(same => same) >= FoundShare * alike.Length;

        static bool IsSame(double firstHz, double secondHz) => Math.Abs(Cents.Between(firstHz, secondHz)) <= HeldCents;

        static (double Lower, double Upper)? Pair(AnalysisFrame frame) => frame switch
        {
            { Played: { } played, Sung: { } sung } => (Math.Min(played.FrequencyHz, sung.FrequencyHz), Math.Max(played.FrequencyHz, sung.FrequencyHz)),
            { RolesOpen: { } open } => (open.Lower.FrequencyHz, open.Upper.FrequencyHz),
            _ => null,
        };
    }

    // A tone told apart from the other and held on another note than its step asked.
    private static double OtherNoteSeconds(ResolvedExercise exercise, IReadOnlyList<AnalysisFrame> frames, double startSeconds, VoiceRole role) => Told(exercise, frames, startSeconds)
        .Where(told => told.Part.Role == role && !told.IsFog && !double.IsNaN(told.Cents))
        .GroupBy(told => told.Part)
        .Sum(part =>
        {
            double middle = Median.Of([.. part.Select(told => told.Cents)]);
            return Math.Abs(middle) <= HeldCents ? 0 : part.Count(told => Math.Abs(told.Cents - middle) <= HeldCents);
        }) * HopSeconds(frames);

    private static double Seconds(ResolvedExercise exercise, IReadOnlyList<AnalysisFrame> frames, double startSeconds, Func<VoiceRole, double, bool, bool> counts) =>
        Told(exercise, frames, startSeconds).Count(told => counts(told.Part.Role, told.Cents, told.IsFog)) * HopSeconds(frames);

    private static double HopSeconds(IReadOnlyList<AnalysisFrame> frames) =>
        frames.Count < 2 ? 0 : (double)(frames[1].FirstSample - frames[0].FirstSample) / frames[0].SampleRateHz;

    // What each frame told of each tone then asked, in cents from where it was asked; no number where it told nothing.
    private static IEnumerable<(AskedPart Part, double Cents, bool IsFog)> Told(ResolvedExercise exercise, IReadOnlyList<AnalysisFrame> frames, double startSeconds)
    {
        (AskedPart Part, double StartSeconds, double Seconds)[] parts = [.. Parts(exercise)];
        foreach (AnalysisFrame frame in frames)
        {
            foreach ((AskedPart part, double start, double seconds) in parts)
            {
                double at = frame.CentreSeconds - startSeconds - start;
                if (at >= 0 && at < seconds && part.IsAskedAt(at))
                {
                    PitchEstimate? heard = part.Role == VoiceRole.Played ? frame.Played : frame.Sung;
                    double cents = heard is { } tone ? Cents.Between(part.Path.FrequencyHz(at), tone.FrequencyHz) : double.NaN;
                    yield return (part, cents, frame.Separability == Separability.NotSeparable);
                }
            }
        }
    }

    private static IEnumerable<(AskedPart Part, double StartSeconds, double Seconds)> Parts(ResolvedExercise exercise) => exercise.Steps
        .SelectMany((step, i) => new[] { ((PlayTask)step.Task).Played, ((PlayTask)step.Task).Sung }
            .OfType<AskedPart>()
            .Select(part => (part, exercise.StepStartSeconds(i), step.DurationSeconds)));
}
