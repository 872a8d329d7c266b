using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Figures of a whole take, on frames drawn by hand. No outside source: the truth is the drawing.</summary>
public sealed class TakeFiguresTests
{
    private static readonly GradeLimits Limits = new(30, 20, 10);

    [Theory]
    [InlineData(0.9, false)]
    [InlineData(1.0, true)]
    [InlineData(1.5, true)]
    [InlineData(2.0, true)]
    [InlineData(2.1, false)]
    [InlineData(3.5, true)]
    public void A_moment_is_known_within_a_stretch_ends_included(double seconds, bool isKnown)
    {
        Assert.Equal(isKnown, KnownWindows.Holds([new(1, 2), new(3, 4)], seconds));
        Assert.True(KnownWindows.Holds(null, seconds));
    }

    [Fact]
    public void What_is_asked_and_known_is_where_both_overlap()
    {
        Assert.Equal([new Window(1, 2), new Window(3, 3.5)], KnownWindows.Within([new(0, 2), new(2.5, 3.5)], [new(1, 2.2), new(3, 4)]));
        Assert.Equal([new Window(0, 2)], KnownWindows.Within([new(0, 2)], null));
        Assert.Empty(KnownWindows.Within([new(0, 1)], [new(1, 2)]));
    }

    [Fact]
    public void Seconds_asked_and_known_count_both_tones_and_every_step()
    {
        // The take begins at 10 s. Step 1: P 2 s, S 1 s of 2 s. Step 2: S 2 s. Known from 11 s to 13 s: P 1, S 0.5 of it (it rests before 0.5 and after 1.5), then S 1.
        AskedPart voice = Part(VoiceRole.Sung, (0, 0.5, 0), (0.5, 1.5, 150), (1.5, 2, 0));
        ResolvedExercise exercise = Exercise(1, Pair(100, 150), Step(2, Part(VoiceRole.Played, (0, 2, 100)), voice), Step(2, null, Part(VoiceRole.Sung, (0, 2, 150))));
        Assert.Equal((5.0, 2.5), KnownWindows.Asked(exercise, 10, [new(11, 13)]));
        Assert.Equal((5.0, 5.0), KnownWindows.Asked(exercise, 10, null));
    }

    private static ResolvedExercise Held(double seconds = 4, params Criterion[] criteria) => Exercise(seconds, Part(VoiceRole.Played, (0, seconds, 100)), Part(VoiceRole.Sung, (0, seconds, 150)), criteria);

    private static IReadOnlyList<Departure> Left(Func<int, double?> cents, ResolvedExercise? asked = null, double limit = 20, int frames = 400) =>
        Departures.Of(Frames(0, frames, i => Frame(i, 100, cents(i) is { } c ? Up(150, c) : null)), asked ?? Held(), VoiceRole.Sung, limit);

    [Theory]
    [InlineData(25)]
    [InlineData(-25)]
    public void A_tone_that_left_its_place_is_told_from_when_to_when_and_how_far(double cents)
    {
        // 100 frames from 1.00 s to 1.99 s, half a hop to each side; in one of them a cent further.
        Departure left = Assert.Single(Left(i => i is >= 100 and < 200 ? cents + (i == 150 ? Math.Sign(cents) : 0) : 5));
        Assert.Equal((VoiceRole.Sung, 0.995, 1.995), (left.Role, Math.Round(left.FromSeconds, 6), Math.Round(left.ToSeconds, 6)));
        Assert.Equal(cents + Math.Sign(cents), left.FurthestCents, 6);
        Assert.Empty(Departures.Of(Frames(0, 400, i => Frame(i, 100, 160)), Held(), VoiceRole.Played, 20));
    }

    [Theory]
    [InlineData(19, 0)]
    [InlineData(21, 1)]
    public void Under_a_fifth_of_a_second_is_told_nowhere(int frames, int count) => Assert.Equal(count, Left(i => i >= 100 && i < 100 + frames ? 30 : 0).Count);

    [Fact]
    public void High_and_then_low_are_two()
    {
        IReadOnlyList<Departure> left = Left(i => i is >= 100 and < 150 ? 30 : i is >= 150 and < 200 ? -40 : 0);
        Assert.Equal([30.0, -40.0], left.Select(departure => Math.Round(departure.FurthestCents, 6)));
        Assert.Equal([1.495, 1.995], left.Select(departure => Math.Round(departure.ToSeconds, 6)));
    }

    [Theory]
    [InlineData(10, 1)]
    [InlineData(20, 2)]
    public void A_silence_over_150_ms_ends_one(int silent, int count) => Assert.Equal(count, Left(i => i >= 150 && i < 150 + silent ? null : i is >= 100 and < 250 ? 30 : 0).Count);

    [Fact]
    public void At_the_limit_nothing_is_left_and_ends_of_what_is_asked_do_not_count()
    {
        Assert.Empty(Left(_ => 20 - 1e-6));
        Departure all = Assert.Single(Left(_ => 21));
        Assert.Equal(0.145, all.FromSeconds, 0.011);
        Assert.Equal(3.855, all.ToSeconds, 0.011);
        Assert.Empty(Left(_ => 30, frames: 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Left(_ => 30, limit: 0));
    }

    [Fact]
    public void Where_any_octave_will_do_an_octave_is_no_departure()
    {
        Assert.Empty(Left(_ => 1205, Held(4, new OffsetCriterion(VoiceRole.Sung, Limits, AnyOctave: true))));
        Assert.NotEmpty(Left(_ => 1205, Held(4, new OffsetCriterion(VoiceRole.Sung, Limits))));
        Assert.NotEmpty(Left(_ => 1205, Held(4, new OffsetCriterion(VoiceRole.Played, Limits, AnyOctave: true))));
    }

    [Fact]
    public void A_leap_of_the_path_is_no_departure()
    {
        ResolvedExercise steps = Exercise(4, Part(VoiceRole.Played, (0, 4, 100)), Part(VoiceRole.Sung, (0, 2, 150), (2, 4, 200)));
        Assert.Empty(Departures.Of(Frames(0, 400, i => Frame(i, 100, i < 212 ? 150 : 200)), steps, VoiceRole.Sung, 20));
        Assert.NotEmpty(Departures.Of(Frames(0, 400, i => Frame(i, 100, i < 240 ? 150 : 200)), steps, VoiceRole.Sung, 20));
    }

    [Fact]
    public void A_tone_is_held_against_the_widest_limit_that_is_asked_of_its_place()
    {
        ResolvedExercise asked = Held(4, new OffsetCriterion(VoiceRole.Sung, Limits), new OffsetCriterion(VoiceRole.Sung, new GradeLimits(99, 25, 9)), new OffsetCriterion(VoiceRole.Played, new GradeLimits(99, 98, 97)), new DriftCriterion(VoiceRole.Sung, new GradeLimits(99, 98, 97)));
        Assert.Equal(25, Departures.LimitOf(asked, VoiceRole.Sung, Grade.II));
        Assert.Equal(40, Departures.LimitOf(Held(4, new NotesCriterion(new GradeLimits(50, 40, 30), 0.2)), VoiceRole.Sung, Grade.II));
        Assert.Equal(15, Departures.LimitOf(Held(), VoiceRole.Sung, Grade.II));
        Assert.Equal(10, Departures.LimitOf(null, VoiceRole.Sung, Grade.III));
    }

    private static TakeTrack UnderDrone(Func<int, double> cents, double droneTo, double seconds = 4) => new(
        Step(seconds, null, Part(VoiceRole.Sung, (0, seconds, 150))) with { Sounding = [new SoundingPart(VoiceRole.Played, PitchPath.Constant(100), [new Window(0, droneTo)])] },
        Pair(100, 150), Frames(0, (int)(100 * seconds), i => Frame(i, null, Up(150, cents(i)))), 0);

    [Fact]
    public void With_and_without_the_drone_are_told_apart_and_150_ms_about_its_ends_are_neither()
    {
        DroneComparison told = Assert.Single(DroneComparisons.Of([UnderDrone(i => i is > 186 and < 214 ? 900 : i < 200 ? 3 : -12, 2)]));
        Assert.Equal((VoiceRole.Sung, 3.0, -12.0, true), (told.Role, Math.Round(told.WithCents, 6), Math.Round(told.WithoutCents, 6), told.Leans));
    }

    [Theory]
    [InlineData(0.75, 0)]
    [InlineData(0.85, 1)]
    [InlineData(3.15, 1)]
    [InlineData(3.25, 0)]
    public void A_comparison_takes_half_a_second_of_each(double droneTo, int count) => Assert.Equal(count, DroneComparisons.Of([UnderDrone(_ => 0, droneTo)]).Count);

    [Theory]
    [InlineData(8, 2, true)]
    [InlineData(7, 2, false)]
    [InlineData(-8, 2, true)]
    [InlineData(2, 8, false)]
    public void Leaning_on_the_drone_is_more_than_5_cents_worse_without_it(double without, double with, bool leans) =>
        Assert.Equal(leans, new DroneComparison(VoiceRole.Sung, with, without).Leans);

    [Fact]
    public void Nothing_is_compared_where_nothing_was_judged() => Assert.Empty(DroneComparisons.Of([]));

    private static Finding Balance(double growsBy, params double[] over)
    {
        AskedPart played = Part(VoiceRole.Played, (0, 1, 100), (1, 2, 0), (2, 3, 100), (3, 4, 0), (4, 5, 100));
        TakeTrack track = Track(5, played, Part(VoiceRole.Sung, (0, 5, 150)), Frames(0, 500, i => i / 100 % 2 == 1
            ? Frame(i, null, 150)
            : Frame(i, double.IsNaN(over[i / 200]) ? null : 100, 150, playedDb: -30 + over[i / 200])));

        // The sung tone at -20 dB: over it P lies 10 dB less than drawn.
        return BalanceCriteria.Balance(track, new BalanceCriterion(growsBy));
    }

    [Fact]
    public void The_balance_grows_from_stretch_to_stretch()
    {
        Finding met = Balance(3, 4, 10, 13);
        Assert.Equal((Verdict.Met, "dB", 3.0), (met.Verdict, met.Unit, met.Limit));
        Assert.Equal(3, met.Value!.Value, 6);
        Assert.Equal("The played tone lay -6, 0, +3 dB over the sung one; asked to grow by 3 dB each time.", met.Text);
        Assert.Equal((Verdict.Missed, Fault.Balance), (Balance(3.1, 4, 10, 13).Verdict, Balance(3.1, 4, 10, 13).Fault));
        Finding untold = Balance(3, 4, double.NaN, 13);
        Assert.Equal((Verdict.NotTold, "Both tones could not be told in every stretch, so their balance is not told."), (untold.Verdict, untold.Text));
    }

    [Theory]
    [InlineData(9, true)]
    [InlineData(10, false)]
    public void A_level_takes_a_tenth_of_a_second_away_from_the_edges(int frames, bool isUntold)
    {
        TakeTrack track = Track(1, Part(VoiceRole.Played, (0, 1, 100)), Part(VoiceRole.Sung, (0, 1, 150)), Frames(0, 100, i => Frame(i, 100, i < 15 || i > 85 || (i >= 40 && i < 40 + frames) ? 150 : null)));
        Assert.Equal(isUntold, Assert.Single(BalanceCriteria.Levels(track)).PlayedOverSungDb is null);
    }

    [Fact]
    public void Heard_and_asked_are_told_in_seconds()
    {
        ResolvedExercise exercise = Exercise(4, Part(VoiceRole.Played, (0, 1, 100), (1, 2, 0), (2, 4, 100)), Part(VoiceRole.Sung, (0, 4, 150)));
        TakeResult result = TakeJudge.Judge(exercise, Frames(0, 400, i => i < 100 ? Frame(i, 100, null) : i < 250 ? Frame(i, 100, 150) : i < 300 ? Fog(i) : Frame(i, null, null)), 0);

        // P rests in the second second; fog is both.
        Assert.Equal((2.0, 3.0), (Math.Round(result.Played!.HeardSeconds, 6), result.Played.AskedSeconds));
        Assert.Equal((2.0, 4.0), (Math.Round(result.Sung!.HeardSeconds, 6), result.Sung.AskedSeconds));
        Assert.Equal((1.5, 1.5), (Math.Round(result.Played.ToldSeconds!.Value, 6), Math.Round(result.Sung.ToldSeconds!.Value, 6)));
        Assert.Equal((1.5, 0.5), (Math.Round(result.Pair.SeparableSeconds, 6), Math.Round(result.Pair.FogSeconds, 6)));
    }

    [Fact]
    public void The_pair_is_told_over_all_steps()
    {
        ResolvedExercise two = Exercise(1, Pair(100, 150), Step(2, Part(VoiceRole.Played, (0, 2, 100)), Part(VoiceRole.Sung, (0, 2, 150))), Step(2, Part(VoiceRole.Played, (0, 2, 100)), Part(VoiceRole.Sung, (0, 2, 150))));
        TakeResult result = TakeJudge.Judge(two, Frames(0, 400, i => Frame(i, Up(100, 3), Up(150, 11), i < 150 ? 0.5 : 3)), 0);
        Assert.Equal((1.5, 2.5), (Math.Round(result.Pair.StillSeconds, 6), Math.Round(result.Pair.BeatingSeconds, 6)));
        Assert.Equal(8, result.Pair.IntervalErrorCents!.Value, 6);
        Assert.Equal(3, result.Pair.MedianBeatsPerSecond);
        Assert.Equal((3.0, 11.0), (Math.Round(result.Played!.OffsetCents!.Value, 6), Math.Round(result.Sung!.OffsetCents!.Value, 6)));
        Assert.Equal(0, result.Played.OnsetSeconds!.Value, 9);
        Assert.Null(TakeJudge.Judge(two, [], 0).Pair.IntervalErrorCents);
    }

    /// <summary>The take begins at 1 s of the stream; a tone first heard in its second step begins there.</summary>
    [Fact]
    public void Times_are_of_the_take_and_not_of_the_stream()
    {
        ResolvedExercise two = Exercise(1, Pair(100, 150), Step(2, Part(VoiceRole.Played, (0, 2, 100)), null), Step(2, Part(VoiceRole.Played, (0, 2, 100)), null));
        TakeResult result = TakeJudge.Judge(two, Frames(0, 500, i => Frame(i, i < 340 ? null : 100, null)), 1);
        Assert.Equal(2.4, result.Played!.OnsetSeconds!.Value, 6);
        Assert.Equal(1.6, result.Played.HeardSeconds, 6);

        // A tenth of the best second may be silent.
        Assert.Equal(2.3, result.BestSecond!.Value.FromSeconds, 6);
        Assert.Null(result.Sung);
    }

    [Fact]
    public void The_best_second_has_the_least_of_both_errors_together()
    {
        // From 1 s to 2 s P is true and S 30 off; from 3 s to 4 s both are 20 off: 20 each is nearer than 30 beside 0 by the root of the mean of squares.
        TakeResult result = TakeJudge.Judge(Held(5), Frames(0, 500, i => i is >= 95 and < 205 ? Frame(i, 100, Up(150, 30)) : i is >= 295 and < 405 ? Frame(i, Up(100, 20), Up(150, -20)) : Frame(i, Up(100, 90), Up(150, 90))), 0);
        Assert.Equal((3.0, 4.0), (Math.Round(result.BestSecond!.Value.FromSeconds, 6), Math.Round(result.BestSecond.Value.ToSeconds, 6)));
    }

    [Theory]
    [InlineData(91, true)]
    [InlineData(89, false)]
    public void A_second_of_which_a_tenth_is_silent_is_not_the_best(int heard, bool isTold) =>
        Assert.Equal(isTold, TakeJudge.Judge(Held(1), Frames(0, 100, i => i < heard ? Frame(i, 100, 150) : Frame(i, 100, null)), 0).BestSecond is not null);

    [Fact]
    public void In_fog_the_second_that_beat_slowest_is_the_best()
    {
        ResolvedExercise octave = Exercise(4, Part(VoiceRole.Played, (0, 4, 100)), Part(VoiceRole.Sung, (0, 4, 200)));
        TakeResult result = TakeJudge.Judge(octave, Frames(0, 400, i => Fog(i, i is >= 200 and < 300 ? 1 : 5)), 0);

        // The first second most of which beat once.
        Assert.InRange(result.BestSecond!.Value.FromSeconds, 1.49, 1.61);
        Assert.Null(TakeJudge.Judge(octave, Frames(0, 400, i => Fog(i)), 0).BestSecond);
    }

    /// <summary>Over 232 Hz, twice Bb2, still is under 2 /s; an exercise that asks for half of that says so itself.</summary>
    [Theory]
    [InlineData(null, 2.0)]
    [InlineData(0.5, 1.0)]
    public void Still_is_what_the_exercise_asks_else_one_beat_in_proportion_to_the_played_note(double? asked, double below)
    {
        const double hz = 2 * 116.5409;
        ResolvedExercise exercise = Exercise(4, Part(VoiceRole.Played, (0, 4, hz)), Part(VoiceRole.Sung, (0, 4, 2 * hz)), asked is { } rate ? [new LandingCriterion(rate, 1)] : []);
        TakeResult result = TakeJudge.Judge(exercise, Frames(0, 400, i => Frame(i, hz, 2 * hz, i < 100 ? below - 0.1 : below + 0.1)), 0);
        Assert.Equal((below, 1.0, 3.0), (Math.Round(result.Pair.StillBelowPerSecond, 6), Math.Round(result.Pair.StillSeconds, 6), Math.Round(result.Pair.BeatingSeconds, 6)));
    }

    [Theory]
    [InlineData(14, "The sung tone was heard for 4.0 s of 4.0 s.")]
    [InlineData(20, "The sung tone was heard for 4.0 s of 4.0 s, 0.2 s of it not told from the other tone.")]
    public void How_much_of_a_tone_lay_in_fog_is_said(int fog, string text)
    {
        TakeResult result = TakeJudge.Judge(Held(), Frames(0, 400, i => i < fog ? Fog(i) : Frame(i, 100, 150)), 0);
        Assert.Equal(text, result.Findings.Single(finding => finding is { Criterion: "heard", Role: VoiceRole.Sung }).Text);
    }

    [Theory]
    [InlineData(281, Verdict.Met, Fault.None, "The sung tone was heard for 2.8 s of 4.0 s.")]
    [InlineData(279, Verdict.Missed, Fault.TooShort, "The sung tone was heard for 2.8 s of 4.0 s.")]
    [InlineData(41, Verdict.Missed, Fault.TooShort, "The sung tone was heard for 0.4 s of 4.0 s.")]
    [InlineData(39, Verdict.Missed, Fault.NoTone, "The sung tone was not found near the note asked.")]
    public void A_tone_is_heard_for_seven_tenths_and_found_from_one_tenth(int frames, Verdict verdict, Fault fault, string text)
    {
        TakeResult result = TakeJudge.Judge(Held(), Frames(0, 400, i => Frame(i, 100, i < frames ? 150 : null)), 0);
        Finding heard = result.Findings.Single(finding => finding is { Criterion: "heard", Role: VoiceRole.Sung });
        Assert.Equal((verdict, fault, text, 4.0, "s"), (heard.Verdict, heard.Fault, heard.Text, heard.Limit, heard.Unit));
        Assert.Equal(frames / 100.0, heard.Value!.Value, 6);
    }

    [Fact]
    public void What_asks_for_less_than_a_transient_is_not_said_to_be_missing()
    {
        Assert.DoesNotContain(TakeJudge.Judge(Held(0.28), Frames(0, 28, i => Frame(i, null, null)), 0).Findings, finding => finding.Criterion == "heard");
        Assert.Equal(2, TakeJudge.Judge(Held(0.32), Frames(0, 32, i => Frame(i, null, null)), 0).Findings.Count(finding => finding.Criterion == "heard"));
    }

    public static TheoryData<Criterion, string, string> All() => new()
    {
        { new OffsetCriterion(VoiceRole.Sung, Limits), "offset", "The place of the sung tone" },
        { new SpreadCriterion(VoiceRole.Sung, Limits), "spread", "The wander of the sung tone" },
        { new DriftCriterion(VoiceRole.Played, Limits), "drift", "The drift of the played tone" },
        { new SteadyCriterion(VoiceRole.Played, Limits), "steady", "The steadiness of the played tone" },
        { new UnbrokenCriterion(VoiceRole.Sung), "unbroken", "The glide of the sung tone" },
        { new ArrivalCriterion(VoiceRole.Sung, 0.5, Limits), "arrival", "The arrival of the sung tone" },
        { new ReturnCriterion(VoiceRole.Sung, Limits), "return", "The return of the sung tone" },
        { new LandingCriterion(1, 2), "landing", "The landing of the pair" },
        { new BeatRateCriterion(3, 1), "beatRate", "The beat rate of the pair" },
        { new TogetherCriterion(1), "together", "The time together of the pair" },
        { new IntervalCriterion(Limits, Limits), "interval", "The interval of the pair" },
        { new NotesCriterion(Limits, 0.2), "notes", "Note by note, the pitch of the pair" },
        { new BalanceCriterion(3), "balance", "The balance of the pair" },
    };

    /// <summary>With the drone over all but the last 0.2 s, nothing can be told of any criterion; over a second less, place, wander, interval and beats can.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void What_lay_under_the_drone_is_not_known(Criterion criterion, string name, string words)
    {
        IReadOnlyList<AnalysisFrame> frames = Frames(0, 400, i => Frame(i, 100, 150, 3));
        double edge = name is "interval" or "beatRate" ? 3.9 : 3.8;
        Finding hidden = TakeJudge.Judge(Held(4, criterion), frames, 0, [new Window(edge, 4)]).Findings.Single(finding => finding.Criterion == name);
        Assert.Equal((Verdict.NotTold, $"{words} is not known: the program's own sound lay over some of it."), (hidden.Verdict, hidden.Text));
        Assert.Equal(TakeJudge.RoleOf(criterion), hidden.Role);
        Finding half = TakeJudge.Judge(Held(4, criterion), frames, 0, [new Window(2, 4)]).Findings.Single(finding => finding.Criterion == name);
        Assert.Equal(name is "offset" or "spread" or "interval" or "beatRate", half.Verdict == Verdict.Met);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void A_criterion_is_applied_where_its_tones_are_asked_for(Criterion criterion, string name, string words)
    {
        Assert.NotEqual("", words);
        VoiceRole? role = TakeJudge.RoleOf(criterion);
        Assert.True(TakeJudge.CanApply(criterion, true, true));
        Assert.False(TakeJudge.CanApply(criterion, false, false));
        Assert.Equal(role == VoiceRole.Played || name == "notes", TakeJudge.CanApply(criterion, true, false));
        Assert.Equal(role == VoiceRole.Sung || name == "notes", TakeJudge.CanApply(criterion, false, true));
    }

    /// <summary>Of three steps, one missed: two thirds pass where two thirds are asked, and not where all are; no grade is reached with a step missed.</summary>
    [Theory]
    [InlineData(1.0, false, null)]
    [InlineData(0.66, true, null)]
    public void A_take_passes_by_the_share_of_its_steps(double share, bool asAsked, Grade? reached)
    {
        ExerciseStep step = Step(2, Part(VoiceRole.Played, (0, 2, 100)), null, new OffsetCriterion(VoiceRole.Played, Limits));
        ResolvedExercise three = Exercise(share, Pair(100, 150), step with { Id = "a" }, step with { Id = "b" }, step with { Id = "c" });
        TakeResult result = TakeJudge.Judge(three, Frames(0, 600, i => Frame(i, i < 400 ? 100 : Up(100, 40), null)), 0);
        Assert.Equal((asAsked, reached), (result.AsAsked, result.Reached));
    }

    [Fact]
    public void What_cannot_be_told_is_neither_as_asked_nor_not()
    {
        TakeResult result = TakeJudge.Judge(Held(4, new OffsetCriterion(VoiceRole.Sung, Limits)), Frames(0, 400, i => Frame(i, 100, 150)), 0, []);
        Assert.Null(result.AsAsked);
        Assert.Null(result.Reached);
        Assert.Contains("has no take to judge", Assert.Throws<ArgumentException>(() => TakeJudge.Judge(Exercise(1, Pair(100, 150)), [], 0)).Message, StringComparison.Ordinal);
    }
}
