using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Figures of a whole take. Pure.</summary>
internal static class TakeReports
{
    private const double BestSecondStep = 0.1;
    private const double LeastHeardOfSecond = 0.9;

    /// <summary>One tone over all steps; null when no step asks for it.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="tracks">The steps.</param>
    /// <param name="startSeconds">When the take begins on the frames' clock.</param>
    /// <param name="inNotes">What was heard within notes that were looked for one by one: a late note is measured where it sounded.</param>
    public static JudgedTone? Tone(
        VoiceRole role, IReadOnlyList<TakeTrack> tracks, double startSeconds, IReadOnlyList<(VoiceRole Role, double Seconds, double Cents)> inNotes)
    {
        TakeTrack[] asked = [.. tracks.Where(track => track.Asked(role) is not null)];
        if (asked.Length == 0)
        {
            return null;
        }

        (double Seconds, double Cents)[] points = [.. inNotes.Where(point => point.Role == role).Select(point => (point.Seconds, point.Cents))];
        if (points.Length == 0 && !FogEdge.HasNoMiddle(asked, role))
        {
            points = [.. asked.Where(track => !FogEdge.Strays(track, role)).SelectMany(track => track.Counted(role)
                .Select(point => (point.Seconds + track.StartSeconds - startSeconds, point.Cents!.Value)))];
        }

        PitchLine? fit = PitchLine.Of(
            points, 2 * TakeTrack.EdgeSeconds,
            curve => SwingWidth.Scale(asked[0].Sound.Span, [.. asked.SelectMany(track => track.Swings(role, track.StartSeconds - startSeconds))], curve));
        double? onset = asked
            .Where(track => track.IsWhole)
            .Select(track => PitchCriteria.OnsetSeconds(track, role) + track.StartSeconds - startSeconds)
            .FirstOrDefault(seconds => seconds is not null);
        return new JudgedTone(
            role, fit?.OffsetCents, fit?.SpreadCents, fit?.DriftCents, fit?.VibratoPerSecond, fit?.VibratoCents, onset,
            asked.Sum(track => track.Points(role).Count(point => point.IsAsked && (point.FrequencyHz is not null || point.IsFog)) * track.HopSeconds),
            asked.Sum(track => PathBuilder.Windows(track.Asked(role)!).Sum(window => window.ToSeconds - window.FromSeconds)),
            asked.Sum(track => track.Points(role).Count(point => point.IsAsked && point.FrequencyHz is not null) * track.HopSeconds));
    }

    /// <summary>The pair over all steps.</summary>
    public static JudgedPair Pair(IReadOnlyList<TakeTrack> tracks)
    {
        double told = tracks.Sum(track => track.Frames.Count(frame => frame.Separability == Analysis.Separability.Separable) * track.HopSeconds);
        double fog = tracks.Sum(track => track.Frames.Count(frame => frame.Separability == Analysis.Separability.NotSeparable) * track.HopSeconds);

        // As with a tone: what strays out of fog is not where the interval stands, and what beats there not what the middles would.
        TakeTrack[] straight = [.. tracks.Where(track => !FogEdge.Strays(track))];
        double[] errors = fog > told ? [] : [.. straight.SelectMany(track => PairCriteria.IntervalErrors(track, 0, track.Step.DurationSeconds))];
        double still = tracks.SelectMany(track => ((PlayTask)track.Step.Task).Criteria.OfType<LandingCriterion>()
            .Select(landing => Stillness.LimitPerSecond(track, landing.BelowPerSecondAtBb2))).Cast<double?>().FirstOrDefault() ?? Stillness.LimitPerSecond(tracks[0], JudgedPair.StillBelowPerSecondAtBb2);
        (double Still, double Beating)[] stillness = [.. straight.Select(track => Stillness.Seconds(track, still))];
        return new JudgedPair(
            PairCriteria.MedianRate(straight),
            stillness.Sum(step => step.Still),
            stillness.Sum(step => step.Beating),
            errors.Length == 0 ? null : Median.Of(errors),
            told,
            fog,
            still);
    }

    /// <summary>The second in which every asked tone lay nearest to its path; in fog, the one that beat slowest.</summary>
    public static Window? BestSecond(IReadOnlyList<TakeTrack> tracks, double startSeconds)
    {
        (double Cost, Window Window)? best = null;
        foreach (TakeTrack track in tracks)
        {
            for (double from = 0; from + 1 <= track.Step.DurationSeconds + 1e-9; from += BestSecondStep)
            {
                double? cost = CostOfSecond(track, from);
                if (cost is { } told && (best is not { } known || told < known.Cost))
                {
                    double at = track.StartSeconds - startSeconds + from;
                    best = (told, new Window(at, at + 1));
                }
            }
        }

        return best?.Window;
    }

    private static double? CostOfSecond(TakeTrack track, double from)
    {
        if (!track.IsKnown(from, from + 1))
        {
            return null;
        }

        double sum = 0;
        int tones = 0;
        foreach (VoiceRole role in new[] { VoiceRole.Played, VoiceRole.Sung })
        {
            SoundedPoint[] asked = [.. track.Points(role).Where(point => point.IsAsked && point.Seconds >= from && point.Seconds < from + 1)];
            if (asked.Length == 0)
            {
                continue;
            }

            double[] cents = [.. asked.Where(point => point.Cents is not null).Select(point => point.Cents!.Value)];
            int fog = asked.Count(point => point.IsFog && point.Cents is null);
            if (cents.Length + fog < LeastHeardOfSecond * asked.Length)
            {
                return null;
            }

            if (cents.Length > fog)
            {
                sum += cents.Average(c => c * c);
                tones++;
                continue;
            }

            // In fog its beats say how far it lies from the other.
            double[] rates = [.. Stillness.Rates(track, Stillness.LimitPerSecond(track, JudgedPair.StillBelowPerSecondAtBb2)).Where(rate => rate.Seconds >= from && rate.Seconds < from + 1).Select(rate => rate.Rate)];
            if (rates.Length == 0)
            {
                return null;
            }

            sum += Math.Pow(Cents.Between(track.Pair.PlayedHz, track.Pair.PlayedHz + Median.Of(rates)), 2);
            tones++;
        }

        return tones == 0 ? null : Math.Sqrt(sum / tones);
    }
}
