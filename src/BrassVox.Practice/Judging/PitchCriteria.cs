using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Criteria of one tone against its own path. Pure.</summary>
internal static class PitchCriteria
{
    // Median over this long is what "where the tone stands" means: longer than a vibrato's cycle, shorter than a flinch.
    private const double StandSeconds = 0.25;
    private const double JumpSeconds = 0.05;
    private const double AttackSeconds = 0.15;

    // Farther than a semitone and a half nobody is out of tune; of an octave, farther than three quarters of a semitone: what lies there is a seventh or a ninth. Ours.
    internal const double OtherNoteCents = 150;
    private const double OtherOctaveCents = 75;

    // Farther than this from its note a tone that stood is told by where it stood, not as late. As arrivals ask at the widest.
    private const double OffCents = 50;

    public static Finding Offset(TakeTrack track, OffsetCriterion criterion, Grade aim)
    {
        VoiceRole role = criterion.Role;
        double[] cents = Cents(track, role);
        if (cents.Length == 0)
        {
            return InFog(track, role) ? PairCriteria.BeatsInstead(track, criterion, aim) : NotHeard(track, "offset", role);
        }

        double offset = Median.Of(cents);
        double octaves = Math.Round(offset / 1200);
        string tone = Findings.ToneName(role);
        if (criterion.AnyOctave ? Math.Abs(offset - (1200 * octaves)) > OtherNoteCents : IsOtherNote(offset))
        {
            double away = criterion.AnyOctave ? offset - (1200 * octaves) : offset;
            return Findings.Graded(track.Step.Id, "offset", role, aim, Fault.OtherNote, away, criterion.LimitCents,
                $"{tone} was another note: {Article(IntervalName.Of(away))} {(away > 0 ? "above" : "below")} what was asked, {Findings.Signed(away)}.");
        }

        if (octaves != 0)
        {
            double within = offset - (1200 * octaves);
            if (!criterion.AnyOctave)
            {
                return Findings.Graded(track.Step.Id, "offset", role, aim, Fault.WrongOctave, offset, criterion.LimitCents,
                    $"{tone} sounded {Octaves(octaves)} what was asked.");
            }

            offset = within;
        }

        if (PairCriteria.IsFogAsked(track))
        {
            if (FogEdge.Strays(track, role))
            {
                double[] outside = [.. cents.Order()];
                return Findings.NotTold(track.Step.Id, "offset", role, "c",
                    $"{tone} went in and out of fog, as with a vibrato: from {Findings.Signed(outside[0])} to {Findings.Signed(outside[^1])} where it was told. Where its middle lay is not known.");
            }

            if (FogEdge.HasNoMiddle([track], role))
            {
                return PairCriteria.BeatsInstead(track, criterion, aim);
            }
        }

        string where = Math.Abs(offset) < 0.5 ? "true" : $"{Findings.Cents(offset)} {(offset > 0 ? "high" : "low")}";
        return Findings.Graded(track.Step.Id, "offset", role, aim, Fault.Offset, offset, criterion.LimitCents,
            $"{tone} was {where}; asked within {Findings.Cents(criterion.LimitCents.Of(aim))}.");
    }

    public static Finding Spread(TakeTrack track, SpreadCriterion criterion, Grade aim)
    {
        if (FogEdge.HasNoMiddle([track], criterion.Role) || Fit(track, criterion.Role) is not { } fit)
        {
            return NotToldOrHeard(track, "spread", criterion.Role);
        }

        string vibrato = fit.VibratoCents is { } width ? $" Vibrato of {Findings.Cents(width)} each way is no fault and not counted." : "";
        return Findings.Graded(track.Step.Id, "spread", criterion.Role, aim, Fault.Spread, fit.SpreadCents, criterion.LimitCents,
            $"{Findings.ToneName(criterion.Role)} {(fit.SpreadCents < 0.5 ? "did not wander" : $"wandered {Findings.Cents(fit.SpreadCents)}")}; asked within {Findings.Cents(criterion.LimitCents.Of(aim))}.{vibrato}");
    }

    public static Finding Drift(TakeTrack track, DriftCriterion criterion, Grade aim)
    {
        if (FogEdge.HasNoMiddle([track], criterion.Role) || Fit(track, criterion.Role) is not { } fit)
        {
            return NotToldOrHeard(track, "drift", criterion.Role);
        }

        string way = Math.Abs(fit.DriftCents) < 0.5
            ? "neither rose nor sank"
            : $"{(fit.DriftCents < 0 ? "sank" : "rose")} {Findings.Cents(fit.DriftCents)}";
        return Findings.Graded(track.Step.Id, "drift", criterion.Role, aim, Fault.Drift, fit.DriftCents, criterion.LimitCents,
            $"{Findings.ToneName(criterion.Role)} {way} from beginning to end; asked within {Findings.Cents(criterion.LimitCents.Of(aim))}.");
    }

    public static Finding Steady(TakeTrack track, SteadyCriterion criterion, Grade aim)
    {
        (double Seconds, double Cents)[] points = [.. track.Counted(criterion.Role).Select(point => (point.Seconds, point.Cents!.Value))];
        if (points.Length < 10)
        {
            return NotToldOrHeard(track, "steady", criterion.Role);
        }

        double start = points[0].Seconds;
        double baseEnd = BaselineEnd(track, criterion.Role, start);
        double[] before = [.. points.Where(point => point.Seconds < baseEnd).Select(point => point.Cents)];
        (double Seconds, double Cents)[] after = [.. points.Where(point => point.Seconds >= baseEnd)];
        if (before.Length < 5 || after.Length < 5)
        {
            return Findings.NotTold(track.Step.Id, "steady", criterion.Role, "c",
                $"{Findings.ToneName(criterion.Role)} was not heard both before and while the other moved.");
        }

        double baseline = Median.Of(before);
        double worst = 0;
        for (double at = after[0].Seconds; at + StandSeconds <= after[^1].Seconds; at += StandSeconds / 2)
        {
            double[] here = [.. after.Where(point => point.Seconds >= at && point.Seconds < at + StandSeconds).Select(point => point.Cents)];
            double shift = here.Length < 5 ? 0 : Median.Of(here) - baseline;
            worst = Math.Abs(shift) > Math.Abs(worst) ? shift : worst;
        }

        return Findings.Graded(track.Step.Id, "steady", criterion.Role, aim, Fault.Flinch, worst, criterion.LimitCents,
            $"{Findings.ToneName(criterion.Role)} shifted at most {Findings.Signed(worst)} from where it stood; asked within {Findings.Cents(criterion.LimitCents.Of(aim))}.");
    }

    public static Finding Unbroken(TakeTrack track, UnbrokenCriterion criterion)
    {
        VoiceRole role = criterion.Role;
        string tone = Findings.ToneName(role);
        SoundedPoint[] asked = [.. track.Points(role).Where(point => point.IsAsked && (point.Cents is not null || point.IsFog))];
        if (asked.Length < 10)
        {
            return NotHeard(track, "unbroken", role);
        }

        double gap = 0;
        double jump = 0;
        for (int i = 1; i < asked.Length; i++)
        {
            gap = Math.Max(gap, asked[i].Seconds - asked[i - 1].Seconds - track.HopSeconds);
            int j = i - 1;
            while (j > 0 && asked[i].Seconds - asked[j].Seconds < JumpSeconds - 1e-6)
            {
                j--;
            }

            // Where the pitch is unknown (fog) no jump can be told.
            if (asked[i].Cents is { } now && asked[j].Cents is { } then && asked[i].Seconds - asked[j].Seconds < 2 * JumpSeconds)
            {
                jump = Math.Abs(now - then) > Math.Abs(jump) ? now - then : jump;
            }
        }

        bool tooLong = gap > criterion.LongestGapSeconds;
        bool tooFar = Math.Abs(jump) > criterion.LargestJumpCents;
        string text = (tooLong, tooFar) switch
        {
            (true, _) => $"{tone} broke off for {Findings.Seconds(gap)} within the glide.",
            (_, true) => $"{tone} jumped {Findings.Signed(jump)} within the glide.",
            _ => $"{tone} glided in one piece.",
        };
        if (!tooLong && !tooFar && GlideWay.Shortfall(track, criterion) is { } shortfall)
        {
            return shortfall;
        }

        return tooLong
            ? Findings.Plain(track.Step.Id, "unbroken", role, false, Fault.Broken, gap, criterion.LongestGapSeconds, "s", text)
            : Findings.Plain(track.Step.Id, "unbroken", role, !tooFar, Fault.Broken, jump, criterion.LargestJumpCents, "c", text);
    }

    public static Finding Arrival(TakeTrack track, ArrivalCriterion criterion, Grade aim)
    {
        AskedPart part = track.Asked(criterion.Role)!;
        double limitCents = criterion.LimitCents.Of(aim);
        double? worst = null;
        string tone = Findings.ToneName(criterion.Role);
        AskedSegment[] holds = [.. part.Segments.Where(segment => segment.Move == Move.Hold)];
        for (int i = 0; i < holds.Length; i++)
        {
            AskedSegment hold = holds[i];
            SoundedPoint[] inside = [.. track.Points(criterion.Role).Where(point => point.Seconds >= hold.FromSeconds && point.Seconds < hold.ToSeconds)];
            bool isFog = inside.Count(point => point.IsFog) > inside.Length / 2;
            double? arrived = inside.Cast<SoundedPoint?>()
                .FirstOrDefault(point => point!.Value.Cents is { } cents && Math.Abs(cents) <= limitCents)?.Seconds;
            if (arrived is not null && Stood([.. inside.Where(point => point.Seconds > 0.5 * (hold.FromSeconds + hold.ToSeconds))]) is { } later && Math.Abs(later) > OtherNoteCents)
            {
                // Near its place for a moment, as while an octave is still being weighed, and on another note from there on.
                (arrived, inside) = (null, [.. inside.Where(point => point.Seconds > 0.5 * (hold.FromSeconds + hold.ToSeconds))]);
            }

            if (arrived is null && isFog)
            {
                continue;
            }

            if (arrived is { } at && at - hold.FromSeconds > criterion.WithinSeconds && IsFogBefore(inside, at))
            {
                continue;
            }

            double late = (arrived ?? hold.ToSeconds) - hold.FromSeconds;
            worst = Math.Max(worst ?? 0, i == 0 && arrived is not null ? (OnsetSeconds(track, criterion.Role) - hold.FromSeconds) ?? late : late);
            if (arrived is null && OctavesOff(inside) is { } octaves)
            {
                return Findings.Plain(track.Step.Id, "arrival", criterion.Role, false, Fault.WrongOctave, 1200.0 * octaves, limitCents, "c",
                    $"{tone} sounded {Octaves(octaves)} {hold.Note}.");
            }

            if (arrived is null && Stood(inside) is { } stood && IsOtherNote(stood))
            {
                return Findings.Plain(track.Step.Id, "arrival", criterion.Role, false, Fault.OtherNote, stood, limitCents, "c",
                    $"{tone} was another note: {Article(IntervalName.Of(stood))} {(stood > 0 ? "above" : "below")} {hold.Note}, {Findings.Signed(stood)}.");
            }

            if (arrived is null && Stood(inside) is { } off && Math.Abs(off) > Math.Max(OffCents, limitCents))
            {
                return Findings.Plain(track.Step.Id, "arrival", criterion.Role, false, Fault.Offset, off, limitCents, "c",
                    $"{tone} never came within {Findings.Cents(limitCents)} of {hold.Note}: it stood {Findings.Cents(off)} {(off > 0 ? "high" : "low")}.");
            }

            if (arrived is null)
            {
                return Findings.Plain(track.Step.Id, "arrival", criterion.Role, false, Fault.Late, null, criterion.WithinSeconds, "s",
                    $"{tone} never came within {Findings.Cents(limitCents)} of {hold.Note}.");
            }
        }

        return worst is not { } latest
            ? NotToldOrHeard(track, "arrival", criterion.Role)
            : Findings.Plain(track.Step.Id, "arrival", criterion.Role, latest <= criterion.WithinSeconds, Fault.Late, latest, criterion.WithinSeconds, "s",
                $"{tone} was there {Findings.Seconds(latest)} after it was asked for, at the latest; asked within {Findings.Seconds(criterion.WithinSeconds)}.");
    }

    public static Finding Return(TakeTrack track, ReturnCriterion criterion, Grade aim)
    {
        Window[] windows = [.. PathBuilder.Windows(track.Asked(criterion.Role)!)];
        SoundedPoint[] counted = [.. track.Counted(criterion.Role)];
        double[] medians = [.. windows
            .Select(window => counted.Where(point => point.Seconds >= window.FromSeconds && point.Seconds < window.ToSeconds).ToArray())
            .Where(points => points.Length >= 10)
            .Select(points => Median.Of(points.Select(point => point.Cents!.Value)))];
        if (medians.Length < 2)
        {
            return NotToldOrHeard(track, "return", criterion.Role);
        }

        double worst = medians.Skip(1).Select(median => median - medians[0]).MaxBy(Math.Abs);
        return Findings.Graded(track.Step.Id, "return", criterion.Role, aim, Fault.NotReturned, worst, criterion.LimitCents,
            $"{Findings.ToneName(criterion.Role)} came back {Findings.Signed(worst)} from where it had been; asked within {Findings.Cents(criterion.LimitCents.Of(aim))}.");
    }

    /// <summary>Whether a tone this far from where it was asked is another note, and no octave of that.</summary>
    /// <param name="cents">Cents from where it was asked.</param>
    public static bool IsOtherNote(double cents)
    {
        double octaves = Math.Round(cents / 1200);
        return Math.Abs(cents - (1200 * octaves)) > (octaves == 0 ? OtherNoteCents : OtherOctaveCents);
    }

    private static string Article(string interval) =>
        interval.Contains("octaves", StringComparison.Ordinal) ? interval : "aeiou".Contains(interval[0]) ? $"an {interval}" : $"a {interval}";

    /// <summary>An octave or more away in words.</summary>
    public static string Octaves(double octaves) => octaves > 0 ? "an octave or more above" : "an octave or more below";

    // The middle of where a tone stood; null when it was too short for that.
    private static double? Stood(SoundedPoint[] points)
    {
        double[] cents = [.. points.Select(point => point.Cents).OfType<double>()];
        return cents.Length < 5 ? null : Median.Of(cents);
    }

    // Whole octaves off where the tone stood; null for its own octave and for another note.
    private static int? OctavesOff(SoundedPoint[] points) =>
        Stood(points) is { } stood && !IsOtherNote(stood) && Math.Round(stood / 1200) is not 0 and var octaves ? (int)octaves : null;

    /// <summary>Offset, line and vibrato over what counts; null when too little was heard.</summary>
    public static PitchLine? Fit(TakeTrack track, VoiceRole role) =>
        PitchLine.Of(
            [.. track.Counted(role).Select(point => (point.Seconds, point.Cents!.Value))], 2 * TakeTrack.EdgeSeconds,
            curve => SwingWidth.Scale(track.Sound.Span, [.. track.Swings(role, 0)], curve));

    /// <summary>
    /// When a tone begins, in seconds of the step: where its level crosses 6 dB under its median. A window centred on an
    /// abrupt onset holds half the tone, so that is where the onset lies. Null when it was not heard, or came out of fog, in which it may have begun before.
    /// </summary>
    public static double? OnsetSeconds(TakeTrack track, VoiceRole role) =>
        Crossing(track, role) is { } onset && !IsFogBefore(track.Points(role), onset) ? onset : null;

    // Single windows of fog at an attack are none.
    private static bool IsFogBefore(IEnumerable<SoundedPoint> points, double seconds) =>
        points.Any(point => point.IsFog && point.Seconds < seconds - AttackSeconds);

    private static double? Crossing(TakeTrack track, VoiceRole role)
    {
        SoundedPoint[] heard = [.. track.Points(role).Where(point => point.LevelDbfs is not null)];
        if (heard.Length == 0)
        {
            return null;
        }

        double half = Median.Of(heard.Select(point => point.LevelDbfs!.Value)) - 6.0206;
        for (int i = 0; i < heard.Length; i++)
        {
            if (heard[i].LevelDbfs >= half)
            {
                bool hasBefore = i > 0 && heard[i].Seconds - heard[i - 1].Seconds < 1.5 * track.HopSeconds;
                double rise = hasBefore ? heard[i].LevelDbfs!.Value - heard[i - 1].LevelDbfs!.Value : 0;
                return rise <= 0
                    ? heard[i].Seconds
                    : heard[i].Seconds - (track.HopSeconds * (heard[i].LevelDbfs!.Value - half) / rise);
            }
        }

        return heard[0].Seconds;
    }

    /// <summary>True when the tone is asked for but mostly lies in fog.</summary>
    public static bool InFog(TakeTrack track, VoiceRole role)
    {
        SoundedPoint[] asked = [.. track.Points(role).Where(point => point.IsAsked)];
        return asked.Length > 0 && asked.Count(point => point.IsFog) > asked.Length / 4;
    }

    /// <summary>
    /// True when more of a tone lies in fog than is told. What is told then is where it strays out of the fog, as the turns of a vibrato do
    /// on one side: no middle, no line and no vibrato can be read from that.
    /// </summary>
    /// <param name="tracks">The steps that ask for it.</param>
    /// <param name="role">The tone.</param>
    public static bool IsMostlyFog(IEnumerable<TakeTrack> tracks, VoiceRole role)
    {
        SoundedPoint[] asked = [.. tracks.SelectMany(track => track.Points(role)).Where(point => point.IsAsked)];
        return asked.Count(point => point.IsFog && point.Cents is null) > asked.Count(point => point.Cents is not null);
    }

    /// <summary>True when a tone has no pitch to judge because it lies in fog.</summary>
    public static bool IsJudgedByBeats(TakeTrack track, VoiceRole role) => Cents(track, role).Length == 0 && InFog(track, role);

    private static double[] Cents(TakeTrack track, VoiceRole role)
    {
        double[] cents = [.. track.Counted(role).Select(point => point.Cents!.Value)];
        return cents.Length * track.HopSeconds < 0.1 ? [] : cents;
    }

    private static double BaselineEnd(TakeTrack track, VoiceRole role, double start)
    {
        VoiceRole other = role == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played;
        double? enters = track.Asked(other)?.Segments.FirstOrDefault(segment => segment.Move != Move.Rest)?.FromSeconds;
        return enters is { } at && at > start + 0.5 ? at : start + 1.0;
    }

    private static Finding NotToldOrHeard(TakeTrack track, string criterion, VoiceRole role) => InFog(track, role)
        ? Findings.NotTold(track.Step.Id, criterion, role, "c", $"{Findings.ToneName(role)} lay in fog: too near a line of the other to be told.")
        : NotHeard(track, criterion, role);

    private static Finding NotHeard(TakeTrack track, string criterion, VoiceRole role) => Findings.NotTold(
        track.Step.Id, criterion, role, "c", $"{Findings.ToneName(role)} was not heard long enough to tell.");
}
