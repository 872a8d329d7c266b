using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Judges a step note by note. Pure.</summary>
internal static class NoteJudge
{
    private const int FewestFrames = 4;

    // So many notes missing at the end, and the take ended before the passage did.
    private const int FewestAfterTheEnd = 3;
    private const double EdgeSeconds = 0.1;
    private const double LargestEdgeShare = 0.25;

    // Before and after a step a player may be this early or late and still be heard.
    private const double AroundSeconds = 0.6;
    private const double StillLimitPerSecond = 2;

    // What lies within a quarter tone of a note has begun it, true or not: no nearer to its neighbour.
    private const double NearCents = 50;

    /// <summary>Every held note of a step.</summary>
    /// <param name="step">The step; its task is a <see cref="PlayTask"/>.</param>
    /// <param name="frames">Frames in order of time.</param>
    /// <param name="stepStartSeconds">When the step begins on the frames' clock.</param>
    /// <param name="takeSecondsBefore">How much of the take lies before the step, in seconds.</param>
    /// <param name="criterion">What is asked of each note.</param>
    /// <param name="aim">The grade aimed at.</param>
    /// <param name="points">Takes what was heard of each tone within its notes, where they were found and without their ends: seconds of the take, cents beside the note.</param>
    public static IReadOnlyList<NoteResult> Notes(
        ExerciseStep step, IReadOnlyList<AnalysisFrame> frames, double stepStartSeconds, double takeSecondsBefore, NotesCriterion criterion, Grade aim,
        List<(VoiceRole Role, double Seconds, double Cents)> points)
    {
        var task = (PlayTask)step.Task;
        AnalysisFrame[] near = [.. frames.Where(frame => frame.CentreSeconds >= stepStartSeconds - AroundSeconds
            && frame.CentreSeconds <= stepStartSeconds + step.DurationSeconds + AroundSeconds)];
        IReadOnlyList<ScoreAlignment.Moment> moments = ScoreAlignment.Moments(task.Played, task.Sung, step.DurationSeconds);
        int[] path = near.Length == 0 ? [] : ScoreAlignment.Align(near, moments, stepStartSeconds);
        List<NoteResult> notes = [];
        foreach (AskedPart part in new[] { task.Played, task.Sung }.OfType<AskedPart>())
        {
            foreach (AskedSegment segment in part.Segments.Where(segment => segment.Move == Move.Hold))
            {
                notes.Add(Note(part.Role, segment, near, path, moments, stepStartSeconds, takeSecondsBefore, criterion, aim, points));
            }
        }

        return [.. notes.OrderBy(note => note.AskedSeconds).ThenBy(note => note.Role)];
    }

    public static Finding Finding(TakeTrack track, NotesCriterion criterion, Grade aim, IReadOnlyList<NoteResult> notes)
    {
        NoteResult[] told = [.. notes.Where(note => note.IsAsAsked is not null)];
        if (told.Length == 0)
        {
            return Findings.NotTold(track.Step.Id, "notes", null, "", "No note could be told.");
        }

        double share = (double)told.Count(note => note.IsAsAsked == true) / told.Length;
        NoteResult? last = told.LastOrDefault(note => note.Cents is not null || note.IsFog);
        int after = last is null ? 0 : told.Count(note => note.AskedSeconds > last.AskedSeconds);
        string end = after >= FewestAfterTheEnd ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $" After {last!.Note}{Place(last)} no note was met: {after} notes.") : "";
        string worst = told.Where(note => note.IsAsAsked == false).MaxBy(Badness) is { } bad ? $" {Words(bad, criterion, aim)}" : "";
        bool met = share >= criterion.Share - 1e-9;
        return new Finding(
            track.Step.Id, "notes", null, met ? Verdict.Met : Verdict.Missed, met ? Fault.None : FaultOf(told, criterion), share, criterion.Share, "",
            ReachedBy(told, criterion),
            string.Create(System.Globalization.CultureInfo.InvariantCulture,
                $"{told.Count(note => note.IsAsAsked == true)} of {told.Length} notes as asked, {100 * criterion.Share:0} per cent wanted.{worst}{end}"));
    }

    private static NoteResult Note(
        VoiceRole role, AskedSegment segment, AnalysisFrame[] frames, int[] path, IReadOnlyList<ScoreAlignment.Moment> moments,
        double stepStart, double before, NotesCriterion criterion, Grade aim, List<(VoiceRole Role, double Seconds, double Cents)> points)
    {
        int[] own = [.. Enumerable.Range(0, moments.Count).Where(i => moments[i].FromSeconds >= segment.FromSeconds - 1e-6 && moments[i].ToSeconds <= segment.ToSeconds + 1e-6)];
        int[] at = [.. Enumerable.Range(0, path.Length).Where(i => path[i] >= own[0] && path[i] <= own[^1])];
        double asked = before + segment.FromSeconds;
        string label = segment.Label ?? "";
        if (at.Length == 0)
        {
            return new NoteResult(role, label, segment.Note, asked, null, null, false, null, false);
        }

        double from = frames[at[0]].CentreSeconds;
        double to = frames[at[^1]].CentreSeconds;
        double edge = Math.Min(EdgeSeconds, LargestEdgeShare * (to - from));
        AnalysisFrame[] inside = [.. at.Select(i => frames[i]).Where(frame => frame.CentreSeconds >= from + edge && frame.CentreSeconds <= to - edge)];
        (double Seconds, double Cents)[] heard = [.. inside
            .Where(frame => ToneOf(frame, role) is not null)
            .Select(frame => (frame.CentreSeconds - stepStart + before, Cents.Between(segment.ToHz, ToneOf(frame, role)!.Value.FrequencyHz)))];
        points.AddRange(heard.Select(point => (role, point.Seconds, point.Cents)));
        double[] cents = [.. heard.Select(point => point.Cents)];

        VoiceRole other = role == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played;
        double late = frames[Onset(role, segment, frames, path, at, moments, stepStart)].CentreSeconds - stepStart - segment.FromSeconds;
        bool isFog = inside.Length > 0 && inside.Count(frame => frame.Separability == Separability.NotSeparable) > inside.Length / 2;
        if (isFog && cents.Length < inside.Length / 2)
        {
            double[] rates = [.. inside.Select(frame => frame.BeatRateHz ?? frame.BeatsBelowHz).OfType<double>()];
            bool wanted = own.Any(i => ScoreAlignment.IsFog(moments[i]));
            double? beats = rates.Length < FewestFrames ? null : Median.Of(rates);
            bool? still = !wanted ? false : beats is { } rate ? rate <= StillLimitPerSecond : null;
            return new NoteResult(role, label, segment.Note, asked, null, late, true, beats, still);
        }

        bool otherHeard = inside.Any(frame => ToneOf(frame, other) is not null);
        if (cents.Length < FewestFrames && otherHeard && own.All(i => ScoreAlignment.IsFog(moments[i])))
        {
            return new NoteResult(role, label, segment.Note, asked, null, late, true, null, null);
        }

        if (cents.Length < FewestFrames)
        {
            return new NoteResult(role, label, segment.Note, asked, null, null, false, null, false);
        }

        double median = Median.Of(cents);
        bool isAsAsked = Math.Abs(median) <= criterion.LimitCents.Of(aim) && Math.Abs(late) <= criterion.WithinSeconds;
        return new NoteResult(role, label, segment.Note, asked, median, late, false, null, isAsAsked);
    }

    // A note begins where it is heard, not where the clock asked for it. The score is laid along both tones at once: where one is late, the
    // other, which was there when it was asked, is met late as well; and where one is in time, the note before may still sound in the other.
    private static int Onset(
        VoiceRole role, AskedSegment segment, AnalysisFrame[] frames, int[] path, int[] at, IReadOnlyList<ScoreAlignment.Moment> moments, double stepStart)
    {
        VoiceRole other = role == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played;
        bool IsNear(int i) => ToneOf(frames[i], role) is { } tone && Math.Abs(Cents.Between(segment.ToHz, tone.FrequencyHz)) <= NearCents;
        bool isAnyNear = at.Any(IsNear);
        bool IsBegun(int i) => ToneOf(frames[i], role) is not null
            ? !isAnyNear || IsNear(i)
            : frames[i].Separability == Separability.NotSeparable || (ScoreAlignment.IsFog(moments[path[i]]) && ToneOf(frames[i], other) is not null);
        int onset = at.Where(IsBegun).FirstOrDefault(at[0]);
        while (onset > 0 && IsNear(onset) && IsNear(onset - 1) && frames[onset - 1].CentreSeconds >= stepStart + segment.FromSeconds)
        {
            onset--;
        }

        return onset;
    }

    private static PitchEstimate? ToneOf(AnalysisFrame frame, VoiceRole role) => role == VoiceRole.Played ? frame.Played : frame.Sung;

    private static double Badness(NoteResult note) => note.Cents is { } cents ? Math.Abs(cents) : 150;

    private static string Words(NoteResult note, NotesCriterion criterion, Grade aim)
    {
        string tone = note.Role == VoiceRole.Played ? "P" : "S";
        string what = note switch
        {
            { IsFog: true } => "beat or lay on a line of the other",
            { Cents: { } cents } when Math.Abs(cents) > criterion.LimitCents.Of(aim) => $"was {Findings.Cents(cents)} {(cents > 0 ? "high" : "low")}",
            { LateSeconds: { } late, Cents: not null } => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"came {Math.Abs(late):0.00} s {(late > 0 ? "late" : "early")}"),
            _ => "was not near its note: another one, or none",
        };
        return $"Farthest: {tone} {note.Note}{Place(note)} {what}.";
    }

    private static string Place(NoteResult note) => note.Label.Length > 0 ? $" at {note.Label}" : "";

    // The fault most of the missed notes share.
    private static Fault FaultOf(NoteResult[] told, NotesCriterion criterion) => told
        .Where(note => note.IsAsAsked == false)
        .Select(note => note switch
        {
            { IsFog: true } => Fault.Interval,
            { Cents: null } => Fault.NoTone,
            { Cents: { } cents } when PitchCriteria.IsOtherNote(cents) => Fault.OtherNote,
            { Cents: { } cents } when Math.Abs(cents) > 900 => Fault.WrongOctave,
            { LateSeconds: { } late } when Math.Abs(late) > criterion.WithinSeconds => Fault.Late,
            _ => Fault.Offset,
        })
        .GroupBy(fault => fault)
        .MaxBy(group => group.Count())!.Key;

    private static Grade? ReachedBy(NoteResult[] told, NotesCriterion criterion) => new Grade?[] { Grade.III, Grade.II, Grade.I }
        .FirstOrDefault(grade => told.Count(note => note switch
        {
            { Cents: { } cents, LateSeconds: { } late } => Math.Abs(cents) <= criterion.LimitCents.Of(grade!.Value) && Math.Abs(late) <= criterion.WithinSeconds,
            _ => note.IsAsAsked == true,
        }) >= (criterion.Share * told.Length) - 1e-9);
}
