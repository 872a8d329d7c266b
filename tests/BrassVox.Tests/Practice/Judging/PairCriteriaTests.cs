using BrassVox.Analysis;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>What the judge says of two tones together, on frames drawn by hand. No outside source: the truth is the drawing and the limits the glossary names.</summary>
public sealed class PairCriteriaTests
{
    private const double Bb2 = 116.5409;
    private static readonly GradeLimits Cents10 = new(15, 10, 5);

    private static TakeTrack Beats(int hundredths, Func<int, double?> rate, double playedHz = Bb2, Func<int, double?>? below = null) => Track(
        hundredths / 100.0, Part(VoiceRole.Played, (0, hundredths / 100.0, playedHz)), Part(VoiceRole.Sung, (0, hundredths / 100.0, 2 * playedHz)),
        Frames(0, hundredths, i => Fog(i, rate(i), below?.Invoke(i))));

    [Fact]
    public void Standing_still_is_under_the_rate_and_not_at_it()
    {
        // 201 frames from 1 s to 3 s.
        TakeTrack track = Beats(500, i => i is >= 100 and <= 300 ? 0.9 : 1.0);
        Stillness.Run run = Stillness.Longest(track, 1.0)!.Value;
        Assert.Equal(1.0, run.FromSeconds, 9);
        Assert.Equal(2.01, run.LengthSeconds, 9);
        Assert.Equal((2.01, 2.99), Rounded(Stillness.Seconds(track, 1.0)));
    }

    [Theory]
    [InlineData(28, 4.0)]
    [InlineData(35, 2.0)]
    public void A_moment_without_a_rate_does_not_break_it_and_a_third_of_a_second_does(int unknown, double seconds) =>
        Assert.Equal(seconds, Stillness.Longest(Beats(400, i => i >= 200 - unknown && i < 200 ? null : 0.5), 1.0)!.Value.LengthSeconds, 6);

    [Fact]
    public void The_longest_of_several_stretches_counts()
    {
        Stillness.Run run = Stillness.Longest(Beats(600, i => i is (>= 50 and < 100) or (>= 150 and < 300) or (>= 400 and < 500) ? 0.2 : 6), 1.0)!.Value;
        Assert.Equal((1.5, 1.5), (Math.Round(run.FromSeconds, 6), Math.Round(run.LengthSeconds, 6)));
    }

    [Theory]
    [InlineData(1.04, 2.01)]
    [InlineData(1.06, null)]
    public void A_bound_on_the_rate_speaks_of_the_two_seconds_before_it(double bound, double? seconds)
    {
        Stillness.Run? run = Stillness.Longest(Beats(500, _ => null, below: i => i == 400 ? bound : null), 1.0);
        Assert.Equal(seconds, run is { } still ? Math.Round(still.LengthSeconds, 6) : null);
        Assert.True(run is null || Math.Abs(run.Value.FromSeconds - 2.0) < 1e-6);
    }

    /// <summary>Where the pair surely stood still without a rate, its rate is 0: half of the time stands for all that is known.</summary>
    [Fact]
    public void Standing_still_counts_among_the_rates()
    {
        TakeTrack track = Beats(500, i => i < 200 ? 6 : null, below: i => i == 450 ? 0.5 : null);
        (double Seconds, double Rate)[] rates = Stillness.Rates(track, 1.0);
        Assert.Equal((200, 201), (rates.Count(rate => rate.Rate == 6), rates.Count(rate => rate.Rate == 0)));
        Assert.Equal(rates.Order(), rates);
        Assert.Equal(0, PairCriteria.MedianRate([track]));
    }

    [Fact]
    public void A_bound_does_not_reach_back_over_beats_that_were_told()
    {
        Stillness.Run run = Stillness.Longest(Beats(500, i => i == 350 ? 5 : null, below: i => i == 400 ? 0.5 : null), 1.0)!.Value;
        Assert.Equal((3.51, 0.5), (Math.Round(run.FromSeconds, 6), Math.Round(run.LengthSeconds, 6)));
    }

    [Fact]
    public void A_pair_that_beats_throughout_stood_still_for_no_time_and_one_without_rates_is_not_told()
    {
        Assert.Equal(0, Stillness.Longest(Beats(300, _ => 4), 1.0)!.Value.LengthSeconds);
        Assert.Null(Stillness.Longest(Beats(300, _ => double.NaN), 1.0));
        Finding untold = PairCriteria.Landing(Beats(300, _ => null), new LandingCriterion(1, 2));
        Assert.Equal((Verdict.NotTold, "landing", "/s", "No beats could be told in this take."), (untold.Verdict, untold.Criterion, untold.Unit, untold.Text));
    }

    [Theory]
    [InlineData(2.0, null, Verdict.Met, "The pair stood still (under 1.0 /s) for 2.0 s.")]
    [InlineData(2.005, null, Verdict.Met, "The pair stood still (under 1.0 /s) for 2.0 s.")]
    [InlineData(2.5, null, Verdict.Missed, "The pair stood still (under 1.0 /s) for 2.0 s; asked for 2.5 s.")]
    [InlineData(2.0, 1.0, Verdict.Met, "The pair stood still (under 1.0 /s) for 2.0 s.")]
    [InlineData(2.0, 0.9, Verdict.Missed, "The pair came to stand still at 1.0 s; asked by 0.9 s.")]
    public void Landing_is_long_enough_and_in_time(double forSeconds, double? within, Verdict verdict, string text)
    {
        Finding finding = PairCriteria.Landing(Beats(500, i => i is >= 100 and < 300 ? 0.5 : 4), new LandingCriterion(1, forSeconds, within));
        Assert.Equal((verdict, text), (finding.Verdict, finding.Text));
        Assert.Equal(verdict == Verdict.Met ? Fault.None : Fault.NotLanded, finding.Fault);
        Assert.Equal(2.0, finding.Value!.Value, 6);
        Assert.Equal((forSeconds, "s"), (finding.Limit, finding.Unit));
    }

    /// <summary>The same cents beat twice as fast an octave higher: 1 /s on Bb2 is 2 /s on Bb3.</summary>
    [Fact]
    public void The_limit_of_landing_goes_with_the_played_note()
    {
        Finding finding = PairCriteria.Landing(Beats(300, i => i < 30 ? 4 : 1.9, playedHz: 2 * Bb2), new LandingCriterion(1, 2));
        Assert.Equal(Verdict.Met, finding.Verdict);
        Assert.Contains("under 2.0 /s", finding.Text, StringComparison.Ordinal);
        Assert.Equal(Verdict.Missed, PairCriteria.Landing(Beats(300, _ => 1.9), new LandingCriterion(1, 2)).Verdict);
    }

    [Fact]
    public void Who_did_not_land_is_told_the_slowest_second()
    {
        // A second at 2.5 /s between 4 s of 6 /s.
        Finding finding = PairCriteria.Landing(Beats(500, i => i is >= 200 and < 300 ? 2.5 : 6), new LandingCriterion(1, 2));
        Assert.Equal("The pair stood still (under 1.0 /s) for 0.0 s; asked for 2.0 s. Its slowest second beat 2.5 /s.", finding.Text);

        // A fifth of a second of rates is needed to call it a second.
        Assert.DoesNotContain("slowest", PairCriteria.Landing(Beats(500, i => i < 19 ? 3 : null), new LandingCriterion(1, 2)).Text, StringComparison.Ordinal);
        Assert.Contains("slowest second beat 3.0 /s", PairCriteria.Landing(Beats(500, i => i < 20 ? 3 : null), new LandingCriterion(1, 2)).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2.0, 1.0, Verdict.Met)]
    [InlineData(4.0, 1.0, Verdict.Met)]
    [InlineData(2.0, 0.9, Verdict.Missed)]
    [InlineData(4.0, 0.9, Verdict.Missed)]
    public void A_chosen_beat_rate_is_met_within_its_limit_either_side(double asked, double within, Verdict verdict)
    {
        Finding finding = PairCriteria.BeatRate(Beats(300, _ => 3.0), new BeatRateCriterion(asked, within));
        Assert.Equal((verdict, 3.0, asked, "/s", "beatRate"), (finding.Verdict, finding.Value, finding.Limit, finding.Unit, finding.Criterion));
        Assert.Equal(FormattableString.Invariant($"The pair beat 3.0 /s; asked {asked:0.0} /s within {within:0.0} /s."), finding.Text);
    }

    [Theory]
    [InlineData(49, false)]
    [InlineData(51, true)]
    public void Beats_known_for_less_than_half_a_second_are_no_rate(int known, bool isTold) =>
        Assert.Equal(isTold ? Verdict.Met : Verdict.NotTold, PairCriteria.BeatRate(Beats(300, i => i >= 100 && i < 100 + known ? 3 : null), new BeatRateCriterion(3, 1)).Verdict);

    [Fact]
    public void Beats_of_the_first_and_last_150_ms_do_not_count()
    {
        // Of 100 frames, 0 to 14 and from 86 on lie at the edges: between them 20 beat at 2, 51 at 4.
        Assert.Equal(4, PairCriteria.MedianRate([Beats(100, i => i is < 35 or > 85 ? 2 : 4)]));
        Assert.Null(PairCriteria.MedianRate([Beats(100, i => i is < 15 or > 85 ? 2 : null)]));

        // Two steps are counted together: 0.3 s each.
        Assert.Equal(2, PairCriteria.MedianRate([Beats(100, i => i is >= 20 and < 50 ? 2 : null), Beats(100, i => i is >= 20 and < 50 ? 2 : null)]));
    }

    [Fact]
    public void Together_is_without_a_break_and_fog_is_both()
    {
        TakeTrack track = Track(5, Part(VoiceRole.Played, (0, 5, 100)), Part(VoiceRole.Sung, (0, 5, 150)), Frames(0, 500, i => i switch
        {
            < 100 => Frame(i, 100, null),
            < 150 => Frame(i, 100, 150),
            < 200 => Fog(i),
            < 250 => Frame(i, null, 150),
            < 320 => Frame(i, 100, 150),
            _ => Frame(i, null, null),
        }));
        Finding met = PairCriteria.Together(track, new TogetherCriterion(1.0 - 1e-9));
        Assert.Equal(Verdict.Met, met.Verdict);
        Assert.Equal(1.0, met.Value!.Value, 6);
        Assert.Equal("Both tones sounded together for 1.0 s; asked 1.0 s.", met.Text);
        Assert.Equal((Verdict.Missed, Fault.NotTogether), (PairCriteria.Together(track, new TogetherCriterion(1.02)).Verdict, PairCriteria.Together(track, new TogetherCriterion(1.02)).Fault));
    }

    /// <summary>One line alone lies in fog as two on one line do.</summary>
    [Theory]
    [InlineData(0.5, "The two stood still on one line throughout: one tone alone sounds the same, so nothing tells that both were there.")]
    [InlineData(null, "What sounded lay on one line, and no beats could be told in it: one tone alone sounds the same, so nothing tells that both were there.")]
    public void Fog_without_beats_is_not_told_as_two(double? below, string words)
    {
        TakeTrack track = Track(5, Part(VoiceRole.Played, (0, 5, 100)), Part(VoiceRole.Sung, (0, 5, 200)), Frames(0, 500, i => Fog(i, below: below)));
        Finding together = PairCriteria.Together(track, new TogetherCriterion(2));
        Assert.Equal((Verdict.NotTold, "One line sounded for 5.0 s: nothing tells that both tones were in it."), (together.Verdict, together.Text));
        Assert.Equal(words, PairCriteria.SecondUntold(track)!.Text);
    }

    /// <summary>Turns of a vibrato that are told as pitches tell no beats of the fog between them: the place of a voice 25 c off is not passed on them.</summary>
    [Theory]
    [InlineData(null, false)]
    [InlineData(2.0, true)]
    public void Beats_between_told_pitches_are_none_of_the_fog(double? inFog, bool areTold)
    {
        TakeTrack track = Track(5, Part(VoiceRole.Played, (0, 5, 100)), Part(VoiceRole.Sung, (0, 5, 300)), Frames(0, 500, i => i % 50 < 20 ? Frame(i, 100, 306, 6) : Fog(i, inFog)));
        Assert.Equal(areTold, PairCriteria.AreBeatsTold(track));
        Finding offset = PairCriteria.BeatsInstead(track, new OffsetCriterion(VoiceRole.Sung, new GradeLimits(25, 15, 10)), Grade.II);
        Assert.Equal(areTold ? 2.0 : null, offset.Value);
        Assert.Equal(areTold ? Verdict.Met : Verdict.NotTold, offset.Verdict);
    }

    private static TakeTrack Steps(double secondHz, double firstCents, double secondCents) => Track(
        4, Part(VoiceRole.Played, (0, 2, 100), (2, 4, secondHz)), Part(VoiceRole.Sung, (0, 2, 150), (2, 4, 1.5 * secondHz)),
        Frames(0, 400, i => i < 200 ? Frame(i, 100, Up(150, firstCents)) : Frame(i, secondHz, Up(1.5 * secondHz, secondCents))));

    [Theory]
    [InlineData(440, 12, Verdict.Missed)]
    [InlineData(460, 12, Verdict.Met)]
    [InlineData(-460, 12, Verdict.Met)]
    [InlineData(460, 21, Verdict.Missed)]
    public void After_a_leap_wider_than_a_third_the_interval_has_its_wider_limit(double leapCents, double error, Verdict verdict)
    {
        Finding finding = PairCriteria.Interval(Steps(Up(100, leapCents), 0, error), new IntervalCriterion(Cents10, new GradeLimits(30, 20, 10)), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
    }

    [Fact]
    public void The_note_that_exceeds_its_limit_most_is_told()
    {
        // 14 c beyond 10 exceeds by 4; 21 c beyond 20 by 1.
        Finding finding = PairCriteria.Interval(Steps(200, -14, 21), new IntervalCriterion(Cents10, new GradeLimits(30, 20, 10)), Grade.II);
        Assert.Equal(-14, finding.Value!.Value, 6);
        Assert.Equal("Over Bb2 the interval was -14 c; asked within 10 c.", finding.Text);
        Assert.Equal((10.0, Fault.Interval, Grade.I), (finding.Limit, finding.Fault, finding.Reached));
        Assert.Equal(21, PairCriteria.Interval(Steps(200, 0, 21), new IntervalCriterion(Cents10, new GradeLimits(30, 20, 10)), Grade.II).Value!.Value, 6);
    }

    /// <summary>One of two notes without its S misses the interval there, however true the other was; what was told is judged by its cents, and in fog nothing is told of it.</summary>
    [Theory]
    [InlineData(null, false, Verdict.Missed)]
    [InlineData(386.0, false, Verdict.Met)]
    [InlineData(null, true, Verdict.Met)]
    public void A_note_whose_other_tone_is_not_there_is_no_interval(double? secondCents, bool isFog, Verdict verdict)
    {
        TakeTrack track = Track(
            4, Part(VoiceRole.Played, (0, 2, 100), (2, 4, 110)), Part(VoiceRole.Sung, (0, 2, 150), (2, 4, 165)),
            Frames(0, 400, i => i < 200 ? Frame(i, 100, 150) : Frame(i, 110, secondCents is { } cents ? Up(165, cents) : null) with { Separability = isFog ? Separability.NotSeparable : Separability.Separable }));
        var wide = new GradeLimits(400, 400, 400);
        Finding finding = PairCriteria.Interval(track, new IntervalCriterion(wide, wide), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
        if (verdict == Verdict.Missed)
        {
            Assert.Equal((VoiceRole.Sung, Fault.OtherNote), (finding.Role, finding.Fault));
            Assert.Equal("Over Bb2 the sung tone was not near its note, from 2.0 s to 4.0 s: another note, or none.", finding.Text);
        }
    }

    [Fact]
    public void An_interval_needs_a_tenth_of_a_second_of_both_away_from_the_edges()
    {
        TakeTrack Heard(int from, int to) => Track(2, Part(VoiceRole.Played, (0, 2, 100)), Part(VoiceRole.Sung, (0, 2, 150)), Frames(0, 200, i => Frame(i, 100, i >= from && i < to ? 150 : null)));
        var criterion = new IntervalCriterion(Cents10, Cents10);
        Assert.Equal(Verdict.Met, PairCriteria.Interval(Heard(100, 110), criterion, Grade.II).Verdict);
        Assert.Equal(Verdict.NotTold, PairCriteria.Interval(Heard(100, 109), criterion, Grade.II).Verdict);
        Assert.Equal("Both pitches were never told for long enough.", PairCriteria.Interval(Heard(0, 14), criterion, Grade.II).Text);
        Assert.Equal(Verdict.NotTold, PairCriteria.Interval(Heard(186, 200), criterion, Grade.II).Verdict);
    }

    private static TakeTrack InFog(double playedHz, double sungHz, Func<int, AnalysisFrame> at) =>
        Track(2, Part(VoiceRole.Played, (0, 2, playedHz)), Part(VoiceRole.Sung, (0, 2, sungHz)), Frames(0, 200, at));

    /// <summary>10 c on the octave of 100 Hz: 200 (2^(10/1200) - 1) = 1.159 beats a second.</summary>
    [Theory]
    [InlineData(1.15, Verdict.Met)]
    [InlineData(1.17, Verdict.Missed)]
    public void In_fog_the_limit_is_what_it_would_beat(double rate, Verdict verdict)
    {
        Finding finding = PairCriteria.BeatsInstead(InFog(100, 200, i => Fog(i, rate)), new OffsetCriterion(VoiceRole.Sung, Cents10), Grade.II);
        Assert.Equal((verdict, "/s", "offset"), (finding.Verdict, finding.Unit, finding.Criterion));
        Assert.Equal(1.1586, finding.Limit!.Value, 4);
        Assert.Equal(FormattableString.Invariant($"The sung tone lay in fog, so its beats are judged: {rate:0.0} /s; 10 c would beat 1.2 /s."), finding.Text);
        Assert.Equal(verdict == Verdict.Met ? Grade.II : Grade.I, finding.Reached);
    }

    /// <summary>A vibrato's beats fall to nothing twice a swing, those of a tone that stands off never do.</summary>
    [Theory]
    [InlineData(3, Verdict.NotTold)]
    [InlineData(4, Verdict.Missed)]
    public void In_fog_beats_that_come_and_go_tell_no_offset(int slowEvery, Verdict verdict)
    {
        Finding finding = PairCriteria.BeatsInstead(InFog(100, 200, i => Fog(i, i % slowEvery == 0 ? 0.2 : 3)), new OffsetCriterion(VoiceRole.Sung, Cents10), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
        Assert.True(verdict == Verdict.Missed || finding.Text == "The sung tone lay in fog, and its beats came and went, as with a vibrato: half the time over 3.0 /s; 10 c would beat 1.2 /s.", finding.Text);
    }

    [Fact]
    public void In_fog_a_bound_on_the_rate_counts_as_a_rate_and_half_a_second_is_needed()
    {
        var criterion = new OffsetCriterion(VoiceRole.Played, Cents10);
        Assert.Equal(Verdict.Met, PairCriteria.BeatsInstead(InFog(100, 200, i => Fog(i, null, 0.5)), criterion, Grade.II).Verdict);
        Assert.Equal(Verdict.Met, PairCriteria.BeatsInstead(InFog(100, 200, i => Fog(i, i < 51 ? 0.5 : null)), criterion, Grade.II).Verdict);
        Finding untold = PairCriteria.BeatsInstead(InFog(100, 200, i => Fog(i, i < 49 ? 0.5 : null)), criterion, Grade.II);
        Assert.Equal((Verdict.NotTold, "The played tone lay in fog: too near a line of the other to be told, and no beats were found."), (untold.Verdict, untold.Text));
    }

    /// <summary>Lines nearer than 1/160 ms share a window; the sixth harmonic is the highest that does.</summary>
    [Theory]
    [InlineData(100, 206.2, true)]
    [InlineData(100, 206.3, false)]
    [InlineData(100, 193.8, true)]
    [InlineData(100, 193.7, false)]
    [InlineData(206.2, 100, true)]
    [InlineData(206.3, 100, false)]
    [InlineData(200, 100, true)]
    [InlineData(100, 600, true)]
    [InlineData(100, 700, false)]
    [InlineData(100, 103, true)]
    [InlineData(100, 150, false)]
    public void Fog_is_where_each_line_of_the_upper_lies_on_one_of_the_lower(double playedHz, double sungHz, bool isFog) =>
        Assert.Equal(isFog, PairCriteria.IsFog(playedHz, sungHz));

    /// <summary>The octave and the sixth harmonic have an octave beside them that lies in fog as well; the fifth harmonic has none.</summary>
    [Theory]
    [InlineData(200, false, true)]
    [InlineData(600, false, true)]
    [InlineData(100, false, true)]
    [InlineData(500, false, false)]
    [InlineData(200, true, false)]
    public void Where_an_octave_beside_it_would_beat_alike_the_octave_is_not_told(double sungHz, bool anyOctave, bool isUntold)
    {
        Finding? finding = PairCriteria.OctaveUntold(InFog(100, sungHz, i => Fog(i, 0.5)), new OffsetCriterion(VoiceRole.Sung, Cents10, anyOctave));
        Assert.Equal(isUntold, finding is not null);
        if (finding is not null)
        {
            Assert.Equal((Verdict.NotTold, "octave", VoiceRole.Sung), (finding.Verdict, finding.Criterion, finding.Role));
            Assert.StartsWith("The sung tone lay in fog: which octave it sounded in cannot be told", finding.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_tone_that_is_heard_has_its_octave_told() =>
        Assert.Null(PairCriteria.OctaveUntold(InFog(100, 200, i => Frame(i, 100, 200, 0.5)), new OffsetCriterion(VoiceRole.Sung, Cents10)));

    /// <summary>A fifth whose sung tone drops or rises an octave lies in fog (2 x 150 = 3 x 100); a fourth does not (133 and 267 Hz over 100).</summary>
    [Theory]
    [InlineData(150, Fault.WrongOctave, "The sung tone lay on a line of the other, where the asked interval does not: probably the asked note in another octave.")]
    [InlineData(133.33, Fault.Interval, "The sung tone lay on a line of the other, where the asked interval does not: a unison, an octave or a twelfth.")]
    public void Fog_where_none_is_asked_is_another_interval(double sungHz, Fault fault, string text)
    {
        TakeTrack track = InFog(100, sungHz, i => Fog(i, 0.5));
        Finding finding = PairCriteria.BeatsInstead(track, new OffsetCriterion(VoiceRole.Sung, Cents10), Grade.II);
        Assert.Equal((Verdict.Missed, fault, text), (finding.Verdict, finding.Fault, finding.Text));

        // Which note it was is not known there, so any octave is no pass.
        Assert.Equal(Verdict.NotTold, PairCriteria.BeatsInstead(track, new OffsetCriterion(VoiceRole.Sung, Cents10, AnyOctave: true), Grade.II).Verdict);
    }

    [Theory]
    [InlineData(610, Verdict.NotTold)]
    [InlineData(-610, Verdict.NotTold)]
    [InlineData(590, Verdict.Missed)]
    public void When_the_other_tone_was_elsewhere_nothing_is_said_of_this_one(double otherCents, Verdict verdict)
    {
        TakeTrack track = InFog(100, 150, i => Frame(i, Up(100, otherCents), null, 0.5, null, Separability.NotSeparable));
        Finding finding = PairCriteria.BeatsInstead(track, new OffsetCriterion(VoiceRole.Sung, Cents10), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
        Assert.Equal(verdict == Verdict.NotTold, finding.Text == "The sung tone could not be told: the other tone was not where it was asked.");
    }

    [Fact]
    public void The_error_of_the_interval_counts_only_where_both_are_asked_and_heard()
    {
        TakeTrack track = Track(2, Part(VoiceRole.Played, (0, 1, 100), (1, 2, 0)), Part(VoiceRole.Sung, (0, 0.5, 0), (0.5, 2, 150)),
            Frames(0, 200, i => Frame(i, Up(100, 3), Up(150, 10))));
        double[] errors = [.. PairCriteria.IntervalErrors(track, 0, 2)];
        Assert.Equal(50, errors.Length);
        Assert.All(errors, error => Assert.Equal(7, error, 6));
        Assert.Equal(21, PairCriteria.IntervalErrors(track, 0.7, 0.9).Count());
    }

    private static (double, double) Rounded((double One, double Other) pair) => (Math.Round(pair.One, 6), Math.Round(pair.Other, 6));
}
