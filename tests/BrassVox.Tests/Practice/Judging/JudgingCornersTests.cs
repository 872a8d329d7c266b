using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Takes of several steps, late players, notes half in fog, tones that stay moved: where judging a plain take says nothing. No outside source: the truth is the drawing.</summary>
public sealed class JudgingCornersTests
{
    private static readonly GradeLimits Limits = new(30, 20, 10);

    internal static AskedPart Played(double seconds, double hz = 100) => Part(VoiceRole.Played, (0, seconds, hz));

    internal static AskedPart Sung(double seconds, double hz = 150) => Part(VoiceRole.Sung, (0, seconds, hz));

    internal static TakeResult Judge(double seconds, AskedPart? played, AskedPart? sung, Func<int, AnalysisFrame> at, params Criterion[] criteria) =>
        TakeJudge.Judge(Exercise(seconds, played, sung, criteria), Frames(-100, (int)(100 * seconds) + 100, at), 0);

    /// <summary>As asked, in silence and in fog every criterion answers under its own name, about its own tone and in a unit.</summary>
    [Theory]
    [MemberData(nameof(TakeFiguresTests.All), MemberType = typeof(TakeFiguresTests))]
    public void Every_criterion_answers_under_its_own_name(Criterion criterion, string name, string words)
    {
        Assert.NotEqual("", words);
        VoiceRole? role = TakeJudge.RoleOf(criterion);
        Func<int, AnalysisFrame>[] takes = [i => Frame(i, 100, 150, 3), i => Frame(i, null, null), i => Fog(i), i => Frame(i, 130, null), i => i is >= 0 and < 200 ? Frame(i, 100, 150, 3) : Frame(i, null, null), i => Frame(i, 205, 305)];
        AskedPart sung = name == "return" ? Part(VoiceRole.Sung, (0, 1, 150), (1, 2, 0), (2, 4, 150)) : Sung(4);
        foreach (Func<int, AnalysisFrame> take in takes)
        {
            Finding finding = Assert.Single(Judge(4, Played(4), sung, take, criterion).Findings, finding => finding.Criterion == name && finding.Role == role);
            Assert.Equal(name == "notes", finding.Unit.Length == 0);
            Assert.NotEqual("", finding.Text);
            Assert.Equal(finding.Verdict == Verdict.Missed, finding.Fault != Fault.None);
        }

        if (role is { } tone && name is not "unbroken")
        {
            Assert.EndsWith("was not heard long enough to tell.", name == "arrival" ? "was not heard long enough to tell." : Judge(4, Played(4), sung, i => Frame(i, null, null), criterion).Findings.Single(finding => finding.Criterion == name).Text, StringComparison.Ordinal);
            Assert.Contains(name == "offset" ? "the asked interval does not" : "lay in fog", Judge(4, Played(4), sung, i => Fog(i), criterion).Findings.Single(finding => finding.Criterion == name).Text, StringComparison.Ordinal);
            Assert.StartsWith(tone == VoiceRole.Played ? "The played tone" : "The sung tone", Judge(4, Played(4), sung, i => Fog(i), criterion).Findings.Single(finding => finding.Criterion == name).Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void What_one_limit_decides_reaches_the_narrowest_grade_or_none()
    {
        Assert.Equal(Grade.III, Findings.Plain("", "", null, true, Fault.Late, 1, 1, "s", "").Reached);
        Assert.Null(Findings.Plain("", "", null, false, Fault.Late, 1, 1, "s", "").Reached);
    }

    [Fact]
    public void Seconds_of_two_steps_are_added_up()
    {
        ExerciseStep step = Step(2, Played(2), Sung(2));
        TakeResult result = TakeJudge.Judge(Exercise(1, Pair(116.5409, 150), step with { Id = "a" }, step with { Id = "b" }),
            Frames(0, 400, i => i % 200 < 50 ? Fog(i, 0.5) : Frame(i, 100, i % 200 < 150 ? 150 : null, i % 200 < 100 ? 0.5 : 3)), 0);
        Assert.Equal((2.0, 2.0), (Math.Round(result.Pair.StillSeconds, 6), Math.Round(result.Pair.BeatingSeconds, 6)));
        Assert.Equal((2.0, 1.0), (Math.Round(result.Pair.SeparableSeconds, 6), Math.Round(result.Pair.FogSeconds, 6)));
        Assert.Equal((4.0, 3.0, 4.0), (Math.Round(result.Played!.HeardSeconds, 6), Math.Round(result.Played.ToldSeconds!.Value, 6), result.Played.AskedSeconds));
        Assert.Equal((3.0, 2.0, 4.0), (Math.Round(result.Sung!.HeardSeconds, 6), Math.Round(result.Sung.ToldSeconds!.Value, 6), result.Sung.AskedSeconds));
    }

    /// <summary>Asked from 2 s to 4 s only: what is asked lasts 2 s, and lasted.</summary>
    [Fact]
    public void A_tone_that_enters_later_is_asked_for_from_there()
    {
        TakeResult result = Judge(4, Part(VoiceRole.Played, (0, 2, 0), (2, 4, 100)), Sung(4), i => Frame(i, i >= 200 ? 100 : null, 150), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits));
        Finding heard = result.Findings.Single(finding => finding is { Criterion: "heard", Role: VoiceRole.Played });
        Assert.Equal((Verdict.Met, 2.0), (heard.Verdict, heard.Limit));
        Assert.True(result.AsAsked);
    }

    [Fact]
    public void A_take_drifts_to_the_ends_of_its_tone()
    {
        TakeResult result = Judge(2, Played(2), null, i => Frame(i, i is >= 0 and < 200 ? Up(100, 0.06 * i) : null, null));
        Assert.Equal(0.06 * 199, result.Played!.DriftCents!.Value, 6);
    }

    /// <summary>Known is the second step alone: nothing of it is hidden by what lay over the first.</summary>
    [Fact]
    public void A_step_that_was_heard_whole_is_judged_whole()
    {
        ExerciseStep step = Step(2, Played(2), null, new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), new DriftCriterion(VoiceRole.Played, Limits));
        ResolvedExercise two = Exercise(1, Pair(100, 150), step with { Id = "a" }, step with { Id = "b" });
        TakeResult result = TakeJudge.Judge(two, Frames(0, 500, i => Frame(i, 100, null)), 1, [new Window(0.2, 0.4), new Window(3, 5)]);
        Assert.All(result.Findings.Where(finding => finding.Criterion is "arrival" or "drift"), finding => Assert.Equal(finding.StepId == "a" ? Verdict.NotTold : Verdict.Met, finding.Verdict));
        Assert.Equal(2.0, result.BestSecond!.Value.FromSeconds, 0.11);

        // A stretch that ends before the step does is no whole step.
        Assert.All(TakeJudge.Judge(two, Frames(0, 500, i => Frame(i, 100, null)), 1, [new Window(3, 4.9)]).Findings.Where(finding => finding.Criterion == "drift"), finding => Assert.Equal(Verdict.NotTold, finding.Verdict));
        Assert.All(TakeJudge.Judge(two, Frames(0, 500, i => Frame(i, 100, null)), 1, [new Window(3.1, 5)]).Findings.Where(finding => finding.Criterion == "drift"), finding => Assert.Equal(Verdict.NotTold, finding.Verdict));
    }

    [Fact]
    public void The_best_second_is_one_of_the_player_alone()
    {
        TakeResult result = TakeJudge.Judge(Exercise(4, Played(4), null), Frames(0, 400, i => Frame(i, Up(100, i is >= 200 and < 320 ? 0 : 30), null)), 0, [new Window(0, 2.55)]);
        Assert.Equal(1.5, result.BestSecond!.Value.FromSeconds, 0.06);
    }

    [Fact]
    public void After_what_is_asked_nothing_counts()
    {
        TakeTrack track = Track(3, Part(VoiceRole.Played, (0, 1, 100), (1, 3, 0)), null, Frames(0, 300, i => Frame(i, 100, null)));
        Assert.InRange(track.Counted(VoiceRole.Played).Last().Seconds, 0.835, 0.855);
    }

    /// <summary>The windows show 20 of 30 c; the sound, 2 s of it from the second second on, tells the rest.</summary>
    [Fact]
    public void A_vibrato_is_as_wide_as_the_sound_says()
    {
        const int rate = 48_000;
        double turn = 0;
        float[] sound = new float[3 * rate];
        for (int i = 0; i < sound.Length; i++)
        {
            sound[i] = (float)(0.2 * Enumerable.Range(1, 6).Sum(k => Math.Cos((2 * Math.PI * k * turn) + (k * k)) / k)) + (float)(0.1 * Math.Cos(2 * Math.PI * 130 * i / rate));
            turn += Up(200, 30 * Math.Sin(2 * Math.PI * 5.5 * i / rate)) / rate;
        }

        ResolvedExercise exercise = Exercise(1, Pair(130, 200), Step(0.9, null, Sung(0.9, 200)) with { Id = "a" }, Step(1, null, Sung(1, 200), new SpreadCriterion(VoiceRole.Sung, Limits)));
        AnalysisFrame[] frames = Frames(100, 290, i => Frame(i, 130, Up(200, 20 * Math.Sin(2 * Math.PI * 5.5 * i / 100))));
        TakeResult result = TakeJudge.Judge(exercise, frames, 1, null, sound);
        Assert.Equal(30, result.Sung!.VibratoCents!.Value, 2.5);
        Assert.Matches("Vibrato of (28|29|30|31|32) c each way", result.Findings.Single(finding => finding.Criterion == "spread").Text);
        Assert.Equal(20, TakeJudge.Judge(exercise, frames, 1).Sung!.VibratoCents!.Value, 1.0);
    }

    /// <summary>Lips alone, an octave, a fifth: fog belongs to the octave, from 0.2 s before it is asked for to 0.2 s after.</summary>
    [Fact]
    public void Fog_lies_where_fog_is_written()
    {
        IReadOnlyList<ScoreAlignment.Moment> moments = ScoreAlignment.Moments(Played(3), Part(VoiceRole.Sung, (0, 1, 0), (1, 2, 200), (2, 3, 150)), 3);
        int[] path = ScoreAlignment.Align(Frames(0, 300, i => i < 80 ? Frame(i, 100, null) : i < 220 ? Fog(i) : Frame(i, 100, 150)), moments, 0);
        Assert.Equal((80, 220), (Array.IndexOf(path, 1), Array.IndexOf(path, 2)));

        // Voice alone before the octave.
        IReadOnlyList<ScoreAlignment.Moment> voice = ScoreAlignment.Moments(Part(VoiceRole.Played, (0, 1, 0), (1, 2, 100)), Sung(2, 200), 2);
        Assert.Equal(80, Array.IndexOf(ScoreAlignment.Align(Frames(0, 200, i => i < 80 ? Frame(i, null, 200) : Fog(i)), voice, 0), 1));

        // A fifth and a fourth that sound at once, each with its own pitches, are told apart by either tone.
        IReadOnlyList<ScoreAlignment.Moment> two = ScoreAlignment.Moments(Played(2), Part(VoiceRole.Sung, (0, 1, 150), (1, 2, 133)), 2);
        Assert.Equal(85, Array.IndexOf(ScoreAlignment.Align(Frames(0, 200, i => Frame(i, 100, i < 85 ? 150 : 133)), two, 0), 1));
    }

    private static TakeTrack OneTone(int hundredths, Func<int, double?> cents, VoiceRole role = VoiceRole.Played, double otherEnters = 3) => Track(
        hundredths / 100.0,
        role == VoiceRole.Played ? Played(hundredths / 100.0) : Part(VoiceRole.Played, (0, otherEnters, 0), (otherEnters, hundredths / 100.0, 100)),
        role == VoiceRole.Sung ? Sung(hundredths / 100.0) : Part(VoiceRole.Sung, (0, otherEnters, 0), (otherEnters, hundredths / 100.0, 150)),
        Frames(0, hundredths, i => role == VoiceRole.Played ? Frame(i, cents(i) is { } c ? Up(100, c) : null, i >= 100 * otherEnters ? 150 : null) : Frame(i, i >= 100 * otherEnters ? 100 : null, cents(i) is { } s ? Up(150, s) : null)));

    [Theory]
    [InlineData(300, 600, 25)]
    [InlineData(330, 360, 25)]
    [InlineData(560, 584, 25)]
    public void A_tone_that_stays_moved_or_moved_shortly_flinched(int from, int to, double cents)
    {
        foreach (VoiceRole role in Enum.GetValues<VoiceRole>())
        {
            Finding finding = PitchCriteria.Steady(OneTone(600, i => i >= from && i < to ? cents : 0, role), new SteadyCriterion(role, Limits), Grade.II);
            Assert.Equal((Fault.Flinch, cents), (finding.Fault, Math.Round(finding.Value!.Value, 6)));

            // What it did for a second before the other came is not held against it.
            Assert.Equal(0, PitchCriteria.Steady(OneTone(600, i => i is >= 120 and < 220 ? cents : 0, role), new SteadyCriterion(role, Limits), Grade.II).Value!.Value, 6);
        }
    }

    [Fact]
    public void A_jump_is_counted_from_where_the_glide_was()
    {
        TakeTrack track = OneTone(400, i => i < 150 ? 50 : 60);
        Finding finding = PitchCriteria.Unbroken(track, new UnbrokenCriterion(VoiceRole.Played));
        Assert.Equal((Verdict.Met, 10.0), (finding.Verdict, Math.Round(finding.Value!.Value, 6)));
    }

    [Fact]
    public void Two_octaves_are_told_as_two()
    {
        Finding finding = PitchCriteria.Arrival(OneTone(400, _ => -2400), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II);
        Assert.Equal((Fault.WrongOctave, -2400.0, "arrival"), (finding.Fault, finding.Value, finding.Criterion));
    }

    [Fact]
    public void Of_several_returns_the_one_farthest_from_the_first_is_told()
    {
        AskedPart part = Part(VoiceRole.Sung, (0, 1, 150), (1, 2, 0), (2, 3, 150), (3, 4, 0), (4, 5, 150));
        TakeTrack track = Track(5, null, part, Frames(0, 500, i => Frame(i, null, (i / 100) switch { 0 => 150, 2 => Up(150, -12), 4 => Up(150, 5), _ => null })));
        Assert.Equal(-12, PitchCriteria.Return(track, new ReturnCriterion(VoiceRole.Sung, Limits), Grade.II).Value!.Value, 6);
    }

    /// <summary>P on 100 and S on 201 Hz beat once a second as asked.</summary>
    [Fact]
    public void Beats_that_are_asked_for_are_no_fault_in_fog()
    {
        TakeTrack track = Track(2, Played(2), Sung(2, 201), Frames(0, 200, i => Fog(i, 1)));
        Finding finding = PairCriteria.BeatsInstead(track, new OffsetCriterion(VoiceRole.Sung, Limits), Grade.III);
        Assert.Equal((Verdict.Met, 0.0), (finding.Verdict, Math.Round(finding.Value!.Value, 6)));
    }

    /// <summary>A vibrato about an octave that leaves the fog on one side only: the quarter that is told lies 35 c high, the voice 5 c.</summary>
    [Theory]
    [InlineData(50, true)]
    [InlineData(49, false)]
    public void What_strays_out_of_fog_is_not_where_a_tone_stands(int fogInHundred, bool isFog)
    {
        TakeResult result = Judge(4, Played(4), Sung(4, 200), i => ((i % 100) + 100) % 100 <= fogInHundred ? Fog(i, 0.5) : Frame(i, 100, Up(200, 35), 4),
            new OffsetCriterion(VoiceRole.Sung, Limits), new SpreadCriterion(VoiceRole.Sung, Limits), new DriftCriterion(VoiceRole.Sung, Limits));
        Finding Found(string name) => result.Findings.Single(finding => finding.Criterion == name && finding.Role == VoiceRole.Sung);
        Assert.Equal(isFog ? ("/s", Verdict.Met) : ("c", Verdict.Missed), (Found("offset").Unit, Found("offset").Verdict));
        Assert.Equal((isFog, isFog), (Found("spread").Verdict == Verdict.NotTold, Found("drift").Verdict == Verdict.NotTold));
        Assert.Equal(isFog ? (double?)null : 35, result.Sung!.OffsetCents is { } cents ? Math.Round(cents, 6) : null);
        Assert.Equal(isFog, result.Pair.IntervalErrorCents is null);
        Assert.False(result.IsOctaveUntold);
    }

    /// <summary>Where the interval asked lies in no fog, much fog is no excuse for the rest.</summary>
    [Fact]
    public void Fog_that_is_not_asked_for_leaves_a_fault_a_fault()
    {
        Finding high = Judge(4, Played(4), Sung(4), i => i is >= 0 and < 250 ? Fog(i, 0.5) : Frame(i, 100, Up(150, 35)), new OffsetCriterion(VoiceRole.Sung, Limits)).Findings.Single(finding => finding.Criterion == "offset");
        Assert.Equal((Verdict.Missed, "The sung tone was 35 c high; asked within 20 c."), (high.Verdict, high.Text));
    }

    /// <summary>What is rounded away has no direction.</summary>
    [Theory]
    [InlineData(0.4, "neither rose nor sank")]
    [InlineData(-0.4, "neither rose nor sank")]
    [InlineData(6, "rose 6 c")]
    [InlineData(-6, "sank 6 c")]
    public void A_drift_of_nothing_goes_nowhere(double cents, string words)
    {
        Finding drift = Judge(4, Played(4), Sung(4), i => Frame(i, 100, Up(150, cents * i / 400)), new DriftCriterion(VoiceRole.Sung, Limits)).Findings.Single(finding => finding.Criterion == "drift");
        Assert.Equal($"The sung tone {words} from beginning to end; asked within 20 c.", drift.Text);
    }

    /// <summary>The twelfth has the octave above it in fog (six times P), eight times P has only the one below.</summary>
    [Fact]
    public void An_octave_to_either_side_may_lie_in_fog()
    {
        TakeTrack In(double sungHz) => Track(2, Played(2), Sung(2, sungHz), Frames(0, 200, i => Fog(i, 1)));
        Assert.NotNull(PairCriteria.OctaveUntold(In(300), new OffsetCriterion(VoiceRole.Sung, Limits)));
        Assert.Equal(Fault.WrongOctave, PairCriteria.BeatsInstead(In(800), new OffsetCriterion(VoiceRole.Sung, Limits), Grade.II).Fault);
        Assert.Equal("The played tone lay on a line of the other, where the asked interval does not: probably the asked note in another octave.", PairCriteria.BeatsInstead(In(150), new OffsetCriterion(VoiceRole.Played, Limits), Grade.II).Text);
        TakeTrack elsewhere = Track(2, Played(2), Sung(2), Frames(0, 200, i => Frame(i, null, Up(150, 610), 1, null, Separability.NotSeparable)));
        Assert.Equal(Verdict.NotTold, PairCriteria.BeatsInstead(elsewhere, new OffsetCriterion(VoiceRole.Played, Limits), Grade.II).Verdict);
        Assert.True(Judge(2, Played(2), Sung(2, 200), i => Fog(i, 1), new OffsetCriterion(VoiceRole.Sung, Limits)).IsOctaveUntold);
        Assert.False(Judge(2, Played(2), Sung(2), i => Frame(i, 100, 150), new OffsetCriterion(VoiceRole.Sung, Limits)).IsOctaveUntold);
    }

    /// <summary>Between the edges 34 frames beat at 4 and 37 at 6; with the 29 at the edges, at 2, the middle would be 4.</summary>
    [Fact]
    public void Beats_at_the_edges_of_a_step_do_not_move_its_middle()
    {
        TakeTrack track = Track(1, Played(1), Sung(1, 200), Frames(0, 100, i => Fog(i, i is < 15 or > 85 ? 2 : i < 49 ? 4 : 6)));
        Assert.Equal(6, PairCriteria.MedianRate([track]));
    }

    [Fact]
    public void With_and_without_the_drone_are_told_apart_wherever_it_sounds()
    {
        ExerciseStep step = Step(5, null, Sung(5)) with { Sounding = [new SoundingPart(VoiceRole.Played, PitchPath.Constant(100), [new Window(1, 2), new Window(3, 4)])] };
        TakeTrack track = new(step, Pair(100, 150), Frames(0, 500, i => Frame(i, null, Up(150, i % 100 is < 14 or > 86 ? 900 : i / 100 % 2 == 1 ? 3 : -12))), 0);
        DroneComparison told = Assert.Single(DroneComparisons.Of([track]));
        Assert.Equal((3.0, -12.0), (Math.Round(told.WithCents, 6), Math.Round(told.WithoutCents, 6)));
    }

    /// <summary>Within and without two drones the voice rises evenly about the same place; about each beginning and end of them it is far off, which moves no median.</summary>
    [Fact]
    public void The_transients_at_every_drone_count_neither_way()
    {
        ExerciseStep step = Step(5, null, Sung(5)) with { Sounding = [new SoundingPart(VoiceRole.Played, PitchPath.Constant(100), [new Window(1, 2), new Window(3, 4)])] };
        TakeTrack track = new(step, Pair(100, 150), Frames(0, 500, i => Frame(i, null, Up(150, i % 100 is < 15 or > 85 ? 900 : 0.1 * ((i % 100) - 50)))), 0);
        DroneComparison told = Assert.Single(DroneComparisons.Of([track]));
        Assert.Equal(0, told.WithCents, 0.11);
        Assert.Equal(0, told.WithoutCents, 0.11);
    }

    [Fact]
    public void Seconds_of_a_tone_with_rests_are_added_up() => Assert.Equal((2.0, 1.5), KnownWindows.Asked(
        Exercise(3, Part(VoiceRole.Played, (0, 1, 100), (1, 2, 0), (2, 3, 100)), null), 0, [new Window(0.5, 9)]));

    [Fact]
    public void A_tone_that_one_step_asks_for_can_be_predicted()
    {
        ResolvedExercise two = Exercise(1, Pair(100, 150), Step(1, Played(1), Sung(1)), Step(1, null, null));
        foreach (PredictedFigure figure in Enum.GetValues<PredictedFigure>())
        {
            Assert.Equal(figure, Predictions.AskedBy(two with { Exercise = two.Exercise with { PlayAlong = two.Exercise.PlayAlong! with { Predict = figure } } }));
        }
    }

    /// <summary>A glide has no one place: what leaves it is told against where it should be just then, and a tone that stays behind has left it.</summary>
    [Fact]
    public void A_glide_is_followed_where_it_should_be()
    {
        double Hz(double seconds) => Up(150, 200 * seconds / 4);
        AskedPart glide = new(VoiceRole.Sung, PitchPath.Glide(150, Hz(4), 4), [new AskedSegment(Move.Glide, 0, 4, Pitch.Parse("F3"), 0, 150, Hz(4))]);
        ResolvedExercise exercise = Exercise(4, null, glide);
        Assert.Empty(Departures.Of(Frames(0, 400, i => Frame(i, null, Up(Hz(i / 100.0), 15))), exercise, VoiceRole.Sung, 20));

        // From 2 s on it stays: 20 c off after 0.4 s, 50 c a second.
        Departure left = Assert.Single(Departures.Of(Frames(0, 400, i => Frame(i, null, Hz(Math.Min(2, i / 100.0)))), exercise, VoiceRole.Sung, 20));
        Assert.Equal(2.4, left.FromSeconds, 0.02);
        Assert.Equal(-50 * 1.85, left.FurthestCents, 1.0);
    }

    [Fact]
    public void A_place_is_told_unless_any_step_moves_or_any_criterion_asked_for_it()
    {
        Finding Of(string criterion, VoiceRole? role = null) => new("", criterion, role, Verdict.Met, Fault.None, null, null, "", null, "");
        JudgedTone high = new(VoiceRole.Played, 30, 0, 0, null, null, 0, 1, 1);
        ResolvedExercise held = Exercise(1, Played(1), null);
        Assert.Contains("not asked here", Advice.Next(held, [Of("spread", VoiceRole.Played), Of("heard")], [high]), StringComparison.Ordinal);
        Assert.DoesNotContain("not asked here", Advice.Next(held, [Of("offset", VoiceRole.Played), Of("heard")], [high]), StringComparison.Ordinal);
        Assert.DoesNotContain("not asked here", Advice.Next(held, [Of("interval"), Of("heard")], [high]), StringComparison.Ordinal);
        ResolvedExercise one = Exercise(1, Pair(100, 150), Step(1, Played(1), null), Step(2, Part(VoiceRole.Played, (0, 1, 100), (1, 2, 150)), null));
        Assert.DoesNotContain("not asked here", Advice.Next(one, [Of("heard")], [high]), StringComparison.Ordinal);
    }

    [Fact]
    public void Results_of_older_takes_have_no_notes_and_no_comparisons()
    {
        TakeResult old = new("", Grade.I, null, null, [], null, null, new JudgedPair(null, 0, 0, null, 0, 0), null, "") { Notes = null!, DroneComparisons = null! };
        Assert.Empty(old.Notes);
        Assert.Empty(old.DroneComparisons);
        Assert.Equal((null, "not told"), (Predictions.Compare(new Prediction(PredictedFigure.Beats, 1), old, 100).IsRight, Predictions.Compare(new Prediction(PredictedFigure.Beats, 1), old, 100).Measured));
        NoteResult note = new(VoiceRole.Sung, "", Pitch.Parse("Bb2"), 0, 0, 0, false, null, true);
        Assert.Equal(note, Assert.Single((old with { Notes = [note] }).Notes));
        DroneComparison drone = new(VoiceRole.Sung, 1, 2);
        Assert.Equal(drone, Assert.Single((old with { DroneComparisons = [drone] }).DroneComparisons));
    }

    [Fact]
    public void A_short_stretch_is_short_wherever_it_lies() =>
        Assert.Null(PitchLine.Of([.. Enumerable.Range(0, 10).Select(i => (5 + (0.009 * i), 0.0))], 0));
}
