using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Criteria of the pair: beats, togetherness, interval. Pure.</summary>
internal static class PairCriteria
{
    /// <summary>Name of the finding that an octave cannot be told.</summary>
    public const string OctaveName = "octave";

    /// <summary>Name of the finding that nothing told of a second tone.</summary>
    public const string SecondName = "second";

    /// <summary>Bb2 at A4 = 440 in Hz, the note that beat limits are written for.</summary>
    public const double Bb2Hz = 116.5409;

    private const double WideLeapSemitones = 4;

    // Fewer frames than these tell nothing of a stretch; a tone near its note in less than this share of them was not there.
    private const int LeastJudgedFrames = 10;
    private const double AbsentShare = 0.2;

    // 1/160 ms: lines nearer than this share a window's main lobe.
    private const double NearestToldHz = 6.25;
    private const double HighestFogMultiple = 6;

    // Beats known for less than this are a passing moment, not what the pair did.
    private const double LeastRateSeconds = 0.5;

    // One window that tells only one of two living tones is no break of either; nor is a breath shorter than this. Ours.
    private const double BridgedSeconds = 0.1;

    // Two tones that come together from a semitone are apart for a second and more; a fifth of that is ours.
    private const double LeastApartSeconds = 0.2;

    public static Finding Landing(TakeTrack track, LandingCriterion criterion)
    {
        double limit = Stillness.LimitPerSecond(track, criterion.BelowPerSecondAtBb2);
        Stillness.Run? longest = Stillness.Longest(track, limit);
        if (longest is not { } still)
        {
            return Findings.NotTold(track.Step.Id, "landing", null, "/s", "No beats could be told in this take.");
        }

        double length = still.LengthSeconds;
        bool inTime = criterion.WithinSeconds is not { } within || still.FromSeconds <= within;
        bool isLong = length >= criterion.ForSeconds - track.HopSeconds;
        string stood = $"The pair stood still ({JudgedPair.StillMeans(limit)}) for {Findings.Seconds(length)}";
        string slowest = length < TakeTrack.EdgeSeconds && SlowestSecond(Rates(track)) is { } rate && rate >= limit ? $" Its slowest second beat {Findings.PerSecond(rate)}." : "";
        string text = (isLong, inTime) switch
        {
            (true, true) => $"{stood}.",
            (false, _) => $"{stood}; asked for {Findings.Seconds(criterion.ForSeconds)}.{slowest}",
            _ => $"The pair came to stand still at {Findings.Seconds(still.FromSeconds)}; asked by {Findings.Seconds(criterion.WithinSeconds!.Value)}.",
        };
        if (isLong && inTime && !AreTwoTones(track, limit))
        {
            return Findings.NotTold(track.Step.Id, "landing", null, "/s",
                "Nothing moved against the played tone before it stood still: one tone alone sounds the same, so a landing cannot be told.");
        }

        return Findings.Plain(track.Step.Id, "landing", null, isLong && inTime, Fault.NotLanded, length, criterion.ForSeconds, "s", text);
    }

    // One tone alone reads as stillness. Two are there where they beat, or where the sung one was told near where it was asked.
    private static bool AreTwoTones(TakeTrack track, double limitPerSecond)
    {
        int beating = Rates(track).Count(rate => rate.Rate >= limitPerSecond);
        int apart = track.Frames.Zip(track.Sung).Count(pair => pair.First.Separability == Separability.Separable && pair.Second.Cents is { } cents && Math.Abs(cents) < 600);
        return Math.Max(beating, apart) * track.HopSeconds >= LeastApartSeconds;
    }

    /// <summary>True where beats in fog, or that they stayed under a bound, are known for half a second or longer, and no vibrato strays out of it.</summary>
    public static bool AreBeatsTold(TakeTrack track) => FogRates(track).Length * track.HopSeconds >= LeastRateSeconds
        && !FogEdge.Strays(track);

    // Where a vibrato strays out of the fog its turns are told as pitches: what they would beat is no beat of the pair.
    private static double[] FogRates(TakeTrack track) => [.. track.Frames
        .Where(frame => frame.Separability == Separability.NotSeparable)
        .Select(frame => frame.BeatRateHz ?? frame.BeatsBelowHz)
        .OfType<double>().Where(double.IsFinite)];

    /// <summary>True where something tells that two tones sound: counted beats, or both told apart for a moment. Stillness tells of one tone as well.</summary>
    public static bool AreTwoTold(TakeTrack track) =>
        Rates(track).Length * track.HopSeconds >= LeastRateSeconds
        || track.Frames.Count(frame => frame is { Separability: Separability.Separable, Played: not null, Sung: not null }) * track.HopSeconds >= LeastApartSeconds;

    /// <summary>
    /// That nothing told of a second tone where both were asked for: most of it lay in fog, and stood still there from beginning to end. Null
    /// where two were told, or one is missing in a way that is told. A finding of its own, so that no step of two tones is passed on one.
    /// </summary>
    public static Finding? SecondUntold(TakeTrack track)
    {
        if (!track.IsWhole || track.Asked(VoiceRole.Played) is not { } played || track.Asked(VoiceRole.Sung) is not { } sung)
        {
            return null;
        }

        AnalysisFrame[] both = [.. track.Frames.Where(frame => played.IsAskedAt(track.TimeOf(frame)) && sung.IsAskedAt(track.TimeOf(frame)))];
        int fog = both.Count(frame => frame.Separability == Separability.NotSeparable);
        return both.Length == 0 || 2 * fog < both.Length || AreTwoTold(track)
            ? null
            : Findings.NotTold(track.Step.Id, SecondName, null, "",
                $"{(2 * both.Count(frame => frame.BeatsBelowHz is not null) >= fog ? "The two stood still on one line throughout" : "What sounded lay on one line, and no beats could be told in it")}: one tone alone sounds the same, so nothing tells that both were there.");
    }

    public static Finding BeatRate(TakeTrack track, BeatRateCriterion criterion)
    {
        if (MedianRate([track]) is not { } median)
        {
            return Findings.NotTold(track.Step.Id, "beatRate", null, "/s", "No beats could be told in this step.");
        }

        bool met = Math.Abs(median - criterion.PerSecond) <= criterion.WithinPerSecond;
        return Findings.Plain(track.Step.Id, "beatRate", null, met, Fault.BeatRate, median, criterion.PerSecond, "/s",
            $"The pair beat {Findings.PerSecond(median)}; asked {Findings.PerSecond(criterion.PerSecond)} within {Findings.PerSecond(criterion.WithinPerSecond)}.");
    }

    public static Finding Together(TakeTrack track, TogetherCriterion criterion)
    {
        double longest = 0;
        double? since = null;
        double last = 0;
        for (int i = 0; i < track.Frames.Count; i++)
        {
            double now = track.TimeOf(track.Frames[i]);
            bool both = track.Frames[i].Separability == Separability.NotSeparable || (Heard(track.Played, i) && Heard(track.Sung, i));
            if (!both)
            {
                continue;
            }

            since = since is { } begun && now - last <= BridgedSeconds + track.HopSeconds ? begun : now;
            last = now;
            longest = Math.Max(longest, now - since.Value + track.HopSeconds);
        }

        if (longest >= criterion.AtLeastSeconds && track.Asked(VoiceRole.Played) is not null && track.Asked(VoiceRole.Sung) is not null && !AreTwoTold(track))
        {
            return Findings.NotTold(track.Step.Id, "together", null, "s", $"One line sounded for {Findings.Seconds(longest)}: nothing tells that both tones were in it.");
        }

        return Findings.Plain(track.Step.Id, "together", null, longest >= criterion.AtLeastSeconds, Fault.NotTogether, longest, criterion.AtLeastSeconds, "s",
            $"Both tones sounded together for {Findings.Seconds(longest)}; asked {Findings.Seconds(criterion.AtLeastSeconds)}.");
    }

    public static Finding Interval(TakeTrack track, IntervalCriterion criterion, Grade aim)
    {
        AskedPart played = track.Asked(VoiceRole.Played)!;
        Finding? worst = null, absent = null;
        double lastHz = 0;
        foreach (AskedSegment segment in played.Segments.Where(segment => segment.Move == Move.Hold))
        {
            bool isWide = lastHz > 0 && Math.Abs(Cents.Between(lastHz, segment.ToHz)) > (100 * WideLeapSemitones) + 50;
            lastHz = segment.ToHz;
            double[] errors = [.. IntervalErrors(track, segment.FromSeconds + TakeTrack.EdgeSeconds, segment.ToSeconds - TakeTrack.EdgeSeconds)];
            if (errors.Length < LeastJudgedFrames)
            {
                if (Absent(track, segment) is { } role)
                {
                    absent ??= Findings.Plain(track.Step.Id, "interval", role, false, Fault.OtherNote, null, criterion.LimitCents.Of(aim), "c",
                        $"Over {segment.Note} the {(role == VoiceRole.Sung ? "sung" : "played")} tone was not near its note, from {Findings.Seconds(segment.FromSeconds)} to {Findings.Seconds(segment.ToSeconds)}: another note, or none.");
                }

                continue;
            }

            GradeLimits limits = isWide ? criterion.WideLimitCents : criterion.LimitCents;
            double error = Median.Of(errors);
            Finding here = Findings.Graded(track.Step.Id, "interval", null, aim, Fault.Interval, error, limits,
                $"Over {segment.Note} the interval was {Findings.Signed(error)}; asked within {Findings.Cents(limits.Of(aim))}.");
            worst = worst is null || Excess(here) > Excess(worst) ? here : worst;
        }

        return worst is null ? Findings.NotTold(track.Step.Id, "interval", null, "c", "Both pitches were never told for long enough.") : absent ?? worst;
    }

    /// <summary>True when the pair asked lies in fog even where it is perfect: only its beats can be judged.</summary>
    public static bool IsFogAsked(TakeTrack track) => IsFog(track.Notes.PlayedHz, track.Notes.SungHz);

    /// <summary>In fog an offset cannot be told, but beats can: the offset's limit becomes the beat rate it would make.</summary>
    public static Finding BeatsInstead(TakeTrack track, OffsetCriterion criterion, Grade aim)
    {
        (double playedHz, double sungHz) = track.Notes;
        if (!IsFog(playedHz, sungHz))
        {
            return FogWhereNoneIsAsked(track, criterion);
        }

        double[] rates = FogRates(track);
        if (rates.Length * track.HopSeconds < LeastRateSeconds || Meeting(playedHz, sungHz) is not { } meeting)
        {
            return Findings.NotTold(track.Step.Id, "offset", criterion.Role, "c",
                $"{Findings.ToneName(criterion.Role)} lay in fog: too near a line of the other to be told, and no beats were found.");
        }

        double RateOf(double cents) => meeting.SungHarmonic * sungHz * (Cents.ToRatio(cents) - 1);
        var limits = new GradeLimits(RateOf(criterion.LimitCents.One), RateOf(criterion.LimitCents.Two), RateOf(criterion.LimitCents.Three));
        double median = Median.Of(rates);
        if (median - meeting.RateHz > limits.Of(aim) && SlowerOf(rates) - meeting.RateHz <= limits.Of(aim))
        {
            return Findings.NotTold(track.Step.Id, "offset", criterion.Role, "/s",
                $"{Findings.ToneName(criterion.Role)} lay in fog, and its beats came and went, as with a vibrato: half the time over {Findings.PerSecond(median)}; "
                + $"{Findings.Cents(criterion.LimitCents.Of(aim))} would beat {Findings.PerSecond(limits.Of(aim))}.");
        }

        return Findings.Graded(track.Step.Id, "offset", criterion.Role, aim, Fault.Offset, median - meeting.RateHz, limits,
            $"{Findings.ToneName(criterion.Role)} lay in fog, so its beats are judged: {Findings.PerSecond(median)}; "
            + $"{Findings.Cents(criterion.LimitCents.Of(aim))} would beat {Findings.PerSecond(limits.Of(aim))}.", "/s");
    }

    // A tone that was hardly ever near its note while the other held this one. Fog tells of neither, and short notes are left to their edges.
    private static VoiceRole? Absent(TakeTrack track, AskedSegment over)
    {
        foreach (VoiceRole role in new[] { VoiceRole.Sung, VoiceRole.Played })
        {
            SoundedPoint[] asked = [.. track.Points(role).Where(point => point.IsAsked
                && point.Seconds >= over.FromSeconds + TakeTrack.EdgeSeconds && point.Seconds <= over.ToSeconds - TakeTrack.EdgeSeconds)];
            int near = asked.Count(point => point.IsFog || (point.Cents is { } cents && Math.Abs(cents) < PitchCriteria.OtherNoteCents));
            if (asked.Length >= LeastJudgedFrames && near < AbsentShare * asked.Length)
            {
                return role;
            }
        }

        return null;
    }

    // What the slowest quarter of the frames beat under: a vibrato's beats fall to nothing twice a swing, a steady error's never do.
    private static double SlowerOf(double[] rates) => rates.Order().ElementAt(rates.Length / 4);

    /// <summary>
    /// That the octave of a tone cannot be told: it lay in fog as asked, and an octave beside it would lie in fog as well and beat alike.
    /// Null where it can be told, or any octave will do. A finding of its own, so that an octave is never passed in silence.
    /// </summary>
    public static Finding? OctaveUntold(TakeTrack track, OffsetCriterion criterion)
    {
        (double playedHz, double sungHz) = track.Notes;
        return criterion.AnyOctave || !PitchCriteria.IsJudgedByBeats(track, criterion.Role) || !IsFog(playedHz, sungHz)
            || !(IsFog(playedHz, 2 * sungHz) || IsFog(playedHz, 0.5 * sungHz))
            ? null
            : Findings.NotTold(track.Step.Id, OctaveName, criterion.Role, "c", $"{Findings.ToneName(criterion.Role)} lay in fog: which octave it sounded in cannot be told there. Your ear has to.");
    }

    /// <summary>Known beat rates while anything of the pair is asked for, in order of time.</summary>
    public static (double Seconds, double Rate)[] Rates(TakeTrack track) => [.. track.Frames
        .Where(frame => frame.BeatRateHz is { } rate && double.IsFinite(rate))
        .Select(frame => (track.TimeOf(frame), frame.BeatRateHz!.Value))];

    /// <summary>Median beat rate between the edges of the steps, in beats per second; null when it was known for less than half a second in all.</summary>
    public static double? MedianRate(IReadOnlyList<TakeTrack> tracks)
    {
        double seconds = 0;
        List<double> rates = [];
        foreach (TakeTrack track in tracks)
        {
            int before = rates.Count;
            rates.AddRange(Stillness.Rates(track, Stillness.LimitPerSecond(track, JudgedPair.StillBelowPerSecondAtBb2))
                .Where(rate => rate.Seconds >= TakeTrack.EdgeSeconds && rate.Seconds <= track.Step.DurationSeconds - TakeTrack.EdgeSeconds)
                .Select(rate => rate.Rate));
            seconds += (rates.Count - before) * track.HopSeconds;
        }

        return seconds < LeastRateSeconds ? null : Median.Of(rates);
    }

    /// <summary>Errors of the interval S above P in cents, frame by frame, where both pitches stand.</summary>
    public static IEnumerable<double> IntervalErrors(TakeTrack track, double fromSeconds, double toSeconds)
    {
        for (int i = 0; i < track.Played.Count && i < track.Sung.Count; i++)
        {
            if (track.Played[i] is { IsAsked: true, Cents: { } played } && track.Sung[i] is { IsAsked: true, Cents: { } sung }
                && track.Played[i].Seconds >= fromSeconds && track.Played[i].Seconds <= toSeconds)
            {
                yield return sung - played;
            }
        }
    }

    // The asked interval can be told apart, what sounded could not: it was a unison, an octave or a twelfth instead.
    private static Finding FogWhereNoneIsAsked(TakeTrack track, OffsetCriterion criterion)
    {
        // When the other tone itself was somewhere else, nothing can be said of this one.
        VoiceRole other = criterion.Role == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played;
        if (PitchCriteria.Fit(track, other) is { } fit && Math.Abs(fit.OffsetCents) > 600)
        {
            return Findings.NotTold(track.Step.Id, "offset", criterion.Role, "c",
                $"{Findings.ToneName(criterion.Role)} could not be told: the other tone was not where it was asked.");
        }

        (double playedHz, double sungHz) = track.Notes;
        bool isOctaveOff = IsFog(playedHz, 2 * sungHz) || IsFog(playedHz, 0.5 * sungHz);
        if (criterion.AnyOctave || track.Asked(other) is null)
        {
            // Whether it was the note asked for is just what fog does not tell.
            return Findings.NotTold(track.Step.Id, "offset", criterion.Role, "c",
                $"{Findings.ToneName(criterion.Role)} could not be told from the other tone: which note it was is not known.");
        }

        Fault fault = isOctaveOff ? Fault.WrongOctave : Fault.Interval;
        string what = isOctaveOff ? "probably the asked note in another octave" : "a unison, an octave or a twelfth";
        return Findings.Plain(track.Step.Id, "offset", criterion.Role, false, fault, null, criterion.LimitCents.Two, "c",
            $"{Findings.ToneName(criterion.Role)} lay on a line of the other, where the asked interval does not: {what}.");
    }

    /// <summary>True when the lower tone's first harmonics cover each line of the upper one, so that a window of 160 ms cannot tell them apart.</summary>
    public static bool IsFog(double playedHz, double sungHz)
    {
        double lower = Math.Min(playedHz, sungHz);
        double upper = Math.Max(playedHz, sungHz);
        double multiple = Math.Round(upper / lower);
        return multiple <= HighestFogMultiple && Math.Abs(upper - (multiple * lower)) < NearestToldHz;
    }

    private static double Excess(Finding finding) => Math.Abs(finding.Value ?? 0) - (finding.Limit ?? 0);

    private static bool Heard(IReadOnlyList<SoundedPoint> points, int index) => index < points.Count && points[index].FrequencyHz is not null;

    private static BeatingPair? Meeting(double playedHz, double sungHz) => BeatingPairs.Of(playedHz, sungHz, 8, 0.02 * playedHz)
        .Cast<BeatingPair?>().FirstOrDefault();

    private static double? SlowestSecond((double Seconds, double Rate)[] rates)
    {
        double? slowest = null;
        for (double from = rates.Length == 0 ? 1 : rates[0].Seconds; rates.Length > 0 && from <= rates[^1].Seconds; from += 0.25)
        {
            double[] second = [.. rates.Where(rate => rate.Seconds >= from && rate.Seconds < from + 1).Select(rate => rate.Rate)];
            slowest = second.Length >= 20 ? Math.Min(slowest ?? double.MaxValue, Median.Of(second)) : slowest;
        }

        return slowest;
    }
}
