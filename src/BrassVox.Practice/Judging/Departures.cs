using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Where in a take a tone left its place: what findings say of a whole step, told by the second. Pure.</summary>
public static class Departures
{
    /// <summary>Shorter ones are told nowhere: 0.2 s, ours; one window of the analysis lasts 0.16 s.</summary>
    public const double ShortestSeconds = 0.2;

    /// <summary>The stretches in which a tone lay outside its limits, in order of time.</summary>
    /// <param name="frames">Frames in order of time, on a clock that begins with the take.</param>
    /// <param name="asked">What was asked.</param>
    /// <param name="role">The tone.</param>
    /// <param name="limitCents">The limit to either side in cents, over 0.</param>
    public static IReadOnlyList<Departure> Of(IReadOnlyList<AnalysisFrame> frames, ResolvedExercise asked, VoiceRole role, double limitCents)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(limitCents);
        List<Departure> found = [];
        if (frames.Count < 2)
        {
            return found;
        }

        bool anyOctave = asked.Steps.Any(step => step.Task is PlayTask task && task.Criteria.Any(criterion => criterion is OffsetCriterion { AnyOctave: true } offset && offset.Role == role));
        double hop = (frames[^1].CentreSeconds - frames[0].CentreSeconds) / (frames.Count - 1);
        Departure? open = null;
        foreach (AnalysisFrame frame in frames)
        {
            double at = frame.CentreSeconds;
            if (open is { } old && at - old.ToSeconds > TakeTrack.EdgeSeconds)
            {
                Close();
            }

            PitchEstimate? heard = role == VoiceRole.Played ? frame.Played : frame.Sung;
            double? path = AskedThroughout(asked, role, at);
            if (heard is null || path is null)
            {
                continue;
            }

            double cents = Cents.Between(path.Value, heard.Value.FrequencyHz);
            cents -= anyOctave ? 1200 * Math.Round(cents / 1200) : 0;
            if (Math.Abs(cents) <= limitCents || (open is { } other && Math.Sign(other.FurthestCents) != Math.Sign(cents)))
            {
                Close();
            }

            if (Math.Abs(cents) > limitCents)
            {
                open = open is { } going
                    ? going with { ToSeconds = at + (0.5 * hop), FurthestCents = Math.Abs(cents) > Math.Abs(going.FurthestCents) ? cents : going.FurthestCents }
                    : new Departure(role, at - (0.5 * hop), at + (0.5 * hop), cents);
            }
        }

        Close();
        return found;

        void Close()
        {
            if (open is { } left && left.ToSeconds - left.FromSeconds >= ShortestSeconds)
            {
                found.Add(left);
            }

            open = null;
        }
    }

    /// <summary>The limit a tone is held against: the widest that the exercise asks of its place, else what is called true, in cents.</summary>
    /// <param name="asked">What was asked; null when that is not known.</param>
    /// <param name="role">The tone.</param>
    /// <param name="aim">The grade aimed at.</param>
    public static double LimitOf(ResolvedExercise? asked, VoiceRole role, Grade aim) => (asked?.Steps ?? [])
        .SelectMany(step => step.Task is PlayTask task ? task.Criteria : [])
        .Select(criterion => criterion switch
        {
            OffsetCriterion offset when offset.Role == role => offset.LimitCents.Of(aim),
            NotesCriterion notes => notes.LimitCents.Of(aim),
            _ => (double?)null,
        })
        .Max() ?? Sayings.TrueWithin(aim);

    /// <summary>True when the exercise asks for the place of a tone, so that leaving it is a fault: not where it may glide as it likes, or only has to stay where it began.</summary>
    /// <param name="asked">What was asked; null when that is not known, which is taken as asked.</param>
    /// <param name="role">The tone.</param>
    public static bool IsPlaceAsked(ResolvedExercise? asked, VoiceRole role) => asked is null || asked.Steps
        .SelectMany(step => step.Task is PlayTask task ? task.Criteria : [])
        .Any(criterion => criterion is NotesCriterion || (criterion is OffsetCriterion or ArrivalCriterion && TakeJudge.RoleOf(criterion) == role));

    // What lies within 150 ms of a beginning or an end is a transient there too.
    private static double? AskedThroughout(ResolvedExercise asked, VoiceRole role, double seconds) =>
        asked.AskedHz(role, seconds - TakeTrack.EdgeSeconds) is { } before && asked.AskedHz(role, seconds + TakeTrack.EdgeSeconds) is { } after
        && asked.AskedHz(role, seconds) is { } here && IsBetween(here, before, after)
            ? here
            : null;

    // With a leap between them the two sides are unlike.
    private static bool IsBetween(double here, double before, double after) =>
        Math.Abs(Cents.Between(before, here) - Cents.Between(here, after)) < 60;
}
