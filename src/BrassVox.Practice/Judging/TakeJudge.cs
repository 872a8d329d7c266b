using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>
/// Holds the frames of a take against what its exercise asked. Pure: the same frames give the same result. Loudness, length of breath
/// and consecutive days are never judged.
/// </summary>
public static class TakeJudge
{
    /// <summary>A tone heard for less than this share of what was asked is too short to pass.</summary>
    public const double LeastHeardShare = 0.7;

    private const double NoToneShare = 0.1;

    /// <summary>True when a criterion judges only tones that a step asks for.</summary>
    /// <param name="criterion">The criterion.</param>
    /// <param name="hasPlayed">True when the step asks for P.</param>
    /// <param name="hasSung">True when the step asks for S.</param>
    public static bool CanApply(Criterion criterion, bool hasPlayed, bool hasSung) => RoleOf(criterion) switch
    {
        VoiceRole.Played => hasPlayed,
        VoiceRole.Sung => hasSung,
        _ => criterion is NotesCriterion ? hasPlayed || hasSung : hasPlayed && hasSung,
    };

    /// <summary>Judges a take.</summary>
    /// <param name="resolved">A resolved play-along exercise.</param>
    /// <param name="frames">Frames in order of time; those before and after the take are passed over.</param>
    /// <param name="startSeconds">When the take begins on the frames' clock, in seconds.</param>
    /// <param name="known">The stretches, on the frames' clock, in which the player alone was heard; null for all of it. What lies outside counts neither way.</param>
    /// <param name="sound">The sound of the frames from its first sample on, full scale 1, from which the width of a vibrato is read; empty where there is none, as of frames that show all of it.</param>
    /// <exception cref="ArgumentException">The exercise is no play-along exercise.</exception>
    public static TakeResult Judge(ResolvedExercise resolved, IReadOnlyList<AnalysisFrame> frames, double startSeconds, IReadOnlyList<Window>? known = null, ReadOnlyMemory<float> sound = default)
    {
        if (resolved.Steps.Count == 0)
        {
            throw new ArgumentException($"{resolved.Exercise.Id} has no take to judge.", nameof(resolved));
        }

        Grade aim = resolved.Profile.Aim;
        TakeTrack[] tracks = [.. resolved.Steps.Select((step, i) =>
            new TakeTrack(step, resolved.Pair, frames, startSeconds + resolved.StepStartSeconds(i), known, sound))];
        List<(VoiceRole Role, double Seconds, double Cents)> points = [];
        IReadOnlyList<NoteResult>[] notes = [.. tracks.Select((track, i) => NotesOf(track, frames, resolved.StepStartSeconds(i), aim, points))];
        Finding[] findings = [.. tracks.SelectMany((track, i) => Findings(track, aim, notes[i]))];
        StepOutcome[] steps = [.. tracks.Select(track => new StepOutcome(track, findings)).Where(step => step.IsAsked)];
        bool? asAsked = StepOutcome.AsAsked(steps, resolved.Exercise.PlayAlong!.PassShare);
        Grade? reached = asAsked is null ? null : StepOutcome.Reached(steps);
        Finding? unjudged = asAsked is null ? steps.Select(step => step.Unmeasured).FirstOrDefault(finding => finding is not null) : null;
        if (asAsked == true && steps.Any(step => step.IsMet == false))
        {
            findings = [.. findings, StepOutcome.Enough(steps, resolved.Exercise.PlayAlong!.PassShare)];
        }

        JudgedTone? played = TakeReports.Tone(VoiceRole.Played, tracks, startSeconds, points);
        JudgedTone? sung = TakeReports.Tone(VoiceRole.Sung, tracks, startSeconds, points);
        return new TakeResult(
            resolved.Exercise.Id, aim, asAsked, reached, findings, played, sung,
            TakeReports.Pair(tracks),
            TakeReports.BestSecond(tracks, startSeconds),
            Advice.Next(resolved, findings, [played, sung], asAsked == true, unjudged))
        {
            Notes = [.. notes.SelectMany(step => step)],
            DroneComparisons = DroneComparisons.Of(tracks),
        };
    }

    /// <summary>The tone a criterion is about; null when it is about the pair, or about both.</summary>
    internal static VoiceRole? RoleOf(Criterion criterion) => criterion switch
    {
        OffsetCriterion { Role: var role } => role,
        SpreadCriterion { Role: var role } => role,
        DriftCriterion { Role: var role } => role,
        SteadyCriterion { Role: var role } => role,
        UnbrokenCriterion { Role: var role } => role,
        ArrivalCriterion { Role: var role } => role,
        ReturnCriterion { Role: var role } => role,
        _ => null,
    };

    private static IReadOnlyList<NoteResult> NotesOf(
        TakeTrack track, IReadOnlyList<AnalysisFrame> frames, double secondsBefore, Grade aim, List<(VoiceRole Role, double Seconds, double Cents)> points) =>
        track.IsWhole && ((PlayTask)track.Step.Task).Criteria.OfType<NotesCriterion>().FirstOrDefault() is { } criterion
            ? NoteJudge.Notes(track.Step, frames, track.StartSeconds, secondsBefore, criterion, aim, points)
            : [];

    private static IEnumerable<Finding> Findings(TakeTrack track, Grade aim, IReadOnlyList<NoteResult> notes)
    {
        foreach (VoiceRole role in new[] { VoiceRole.Played, VoiceRole.Sung })
        {
            // Where it is judged note by note, a tone that is not there is told as its notes.
            if (notes.Count == 0 && Heard(track, role) is { } heard)
            {
                yield return heard;
            }
        }

        if (PairCriteria.SecondUntold(track) is { } second)
        {
            yield return second;
        }

        foreach (Finding sounded in notes.Count == 0 ? RestCriteria.Broken(track) : [])
        {
            yield return sounded;
        }

        foreach (Criterion criterion in ((PlayTask)track.Step.Task).Criteria)
        {
            if (UnderDrone(track, criterion) is { } unknown)
            {
                yield return unknown;
                continue;
            }

            yield return criterion switch
            {
                OffsetCriterion offset => PitchCriteria.Offset(track, offset, aim),
                SpreadCriterion spread => PitchCriteria.Spread(track, spread, aim),
                DriftCriterion drift => PitchCriteria.Drift(track, drift, aim),
                SteadyCriterion steady => PitchCriteria.Steady(track, steady, aim),
                UnbrokenCriterion unbroken => PitchCriteria.Unbroken(track, unbroken),
                ArrivalCriterion arrival => PitchCriteria.Arrival(track, arrival, aim),
                ReturnCriterion returned => PitchCriteria.Return(track, returned, aim),
                LandingCriterion landing => PairCriteria.Landing(track, landing),
                BeatRateCriterion rate => PairCriteria.BeatRate(track, rate),
                TogetherCriterion together => PairCriteria.Together(track, together),
                IntervalCriterion interval => PairCriteria.Interval(track, interval, aim),
                NotesCriterion byNote => NoteJudge.Finding(track, byNote, aim, notes),
                BalanceCriterion balance => BalanceCriteria.Balance(track, balance),
                _ => throw new InvalidOperationException($"No judge for {criterion.GetType().Name}."),
            };
            if (criterion is OffsetCriterion place && PairCriteria.OctaveUntold(track, place) is { } octave)
            {
                yield return octave;
            }
        }
    }

    // Where a tone stands can be told from a stretch of it; how it came there, went on or returned only from the whole.
    private static Finding? UnderDrone(TakeTrack track, Criterion criterion)
    {
        if (track.IsWhole)
        {
            return null;
        }

        VoiceRole? role = RoleOf(criterion);
        bool isOfPlace = criterion is OffsetCriterion or SpreadCriterion or IntervalCriterion or BeatRateCriterion;
        bool hasPlace = new[] { VoiceRole.Played, VoiceRole.Sung }.Where(tone => (role ?? tone) == tone).Sum(tone => track.AskedWindows(tone).Sum(window => window.ToSeconds - window.FromSeconds)) > 2 * TakeTrack.EdgeSeconds;
        return isOfPlace && hasPlace ? null : Judging.Findings.NotTold(
            track.Step.Id, NameOf(criterion), role, "", $"{Words(criterion)} of {(role is { } tone ? Judging.Findings.ToneName(tone) : Judging.Findings.ToneName(null)).Replace("The ", "the ", StringComparison.Ordinal)} is not known: the program's own sound lay over some of it.");
    }

    private static string NameOf(Criterion criterion) => criterion switch
    {
        OffsetCriterion => "offset",
        SpreadCriterion => "spread",
        DriftCriterion => "drift",
        SteadyCriterion => "steady",
        UnbrokenCriterion => "unbroken",
        ArrivalCriterion => "arrival",
        ReturnCriterion => "return",
        LandingCriterion => "landing",
        BeatRateCriterion => "beatRate",
        TogetherCriterion => "together",
        IntervalCriterion => "interval",
        NotesCriterion => "notes",
        BalanceCriterion => "balance",
        _ => throw new InvalidOperationException($"No name for {criterion.GetType().Name}."),
    };

    private static string Words(Criterion criterion) => criterion switch
    {
        OffsetCriterion => "The place",
        SpreadCriterion => "The wander",
        DriftCriterion => "The drift",
        SteadyCriterion => "The steadiness",
        UnbrokenCriterion => "The glide",
        ArrivalCriterion => "The arrival",
        ReturnCriterion => "The return",
        LandingCriterion => "The landing",
        BeatRateCriterion => "The beat rate",
        TogetherCriterion => "The time together",
        IntervalCriterion => "The interval",
        NotesCriterion => "Note by note, the pitch",
        _ => "The balance",
    };

    private static Finding? Heard(TakeTrack track, VoiceRole role)
    {
        SoundedPoint[] asked = [.. track.Points(role).Where(point => point.IsAsked)];
        if (track.Asked(role) is null)
        {
            return null;
        }

        double askedSeconds = track.AskedWindows(role).Sum(window => window.ToSeconds - window.FromSeconds);
        if (askedSeconds < 2 * TakeTrack.EdgeSeconds)
        {
            return null;
        }

        double heardSeconds = asked.Count(point => point.FrequencyHz is not null || point.IsFog) * track.HopSeconds;
        double inFog = asked.Count(point => point.FrequencyHz is null && point.IsFog) * track.HopSeconds;
        double share = heardSeconds / askedSeconds;
        string tone = Judging.Findings.ToneName(role);
        return Judging.Findings.Plain(
            track.Step.Id, "heard", role, share >= LeastHeardShare, share < NoToneShare ? Fault.NoTone : Fault.TooShort,
            heardSeconds, askedSeconds, "s",
            share < NoToneShare
                ? $"{tone} was not found near the note asked."
                : $"{tone} was heard for {Judging.Findings.Seconds(heardSeconds)} of {Judging.Findings.Seconds(askedSeconds)}{(inFog > TakeTrack.EdgeSeconds ? $", {Judging.Findings.Seconds(inFog)} of it not told from the other tone" : "")}.");
    }
}
