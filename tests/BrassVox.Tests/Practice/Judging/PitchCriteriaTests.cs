using System.Globalization;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>What the judge says of one tone, on frames drawn by hand. No outside source: the truth is the drawing and the limits the glossary names.</summary>
public sealed class PitchCriteriaTests
{
    private static readonly GradeLimits Limits = new(20, 10, 5);

    private static TakeTrack Played(int hundredths, Func<int, double?> cents, double hz = 100) => Track(
        hundredths / 100.0, Part(VoiceRole.Played, (0, hundredths / 100.0, hz)), null, Frames(0, hundredths, i => Frame(i, cents(i) is { } c ? Up(hz, c) : null, null)));

    [Theory]
    [InlineData(12, Verdict.Missed, "The played tone was 12 c high; asked within 10 c.")]
    [InlineData(-12, Verdict.Missed, "The played tone was 12 c low; asked within 10 c.")]
    [InlineData(9, Verdict.Met, "The played tone was 9 c high; asked within 10 c.")]
    [InlineData(0.4, Verdict.Met, "The played tone was true; asked within 10 c.")]
    [InlineData(0.6, Verdict.Met, "The played tone was 1 c high; asked within 10 c.")]
    [InlineData(149, Verdict.Missed, "The played tone was 149 c high; asked within 10 c.")]
    [InlineData(1130, Verdict.Missed, "The played tone sounded an octave or more above what was asked.")]
    [InlineData(-1205, Verdict.Missed, "The played tone sounded an octave or more below what was asked.")]
    public void A_place_is_told_high_low_true_or_in_another_octave(double cents, Verdict verdict, string text)
    {
        Finding finding = PitchCriteria.Offset(Played(200, _ => cents), new OffsetCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal((verdict, text), (finding.Verdict, finding.Text));
        Assert.Equal(verdict == Verdict.Met ? Fault.None : Math.Abs(cents) > 600 ? Fault.WrongOctave : Fault.Offset, finding.Fault);
        Assert.Equal(cents, finding.Value!.Value, 6);
    }

    [Theory]
    [InlineData(-200, "a whole tone below what was asked, -200 c")]
    [InlineData(590, "a tritone above what was asked, +590 c")]
    [InlineData(884, "a major sixth above what was asked, +884 c")]
    [InlineData(1586, "a major tenth above what was asked, +1586 c")]
    [InlineData(1902, "a twelfth above what was asked, +1902 c")]
    [InlineData(-2900, "two octaves and a fourth below what was asked, -2900 c")]
    public void A_place_farther_than_a_semitone_and_a_half_is_another_note(double cents, string text)
    {
        Finding finding = PitchCriteria.Offset(Played(200, _ => cents), new OffsetCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal((Verdict.Missed, Fault.OtherNote, $"The played tone was another note: {text}."), (finding.Verdict, finding.Fault, finding.Text));
    }

    [Theory]
    [InlineData(1205, 5)]
    [InlineData(-2408, -8)]
    [InlineData(7, 7)]
    public void Where_any_octave_will_do_the_place_within_it_counts(double cents, double within)
    {
        Finding finding = PitchCriteria.Offset(Played(200, _ => cents), new OffsetCriterion(VoiceRole.Played, Limits, AnyOctave: true), Grade.II);
        Assert.Equal(Verdict.Met, finding.Verdict);
        Assert.Equal(within, finding.Value!.Value, 6);
    }

    /// <summary>A grade is reached at its limit; the narrowest of those met is told.</summary>
    [Theory]
    [InlineData(5, Grade.III, Verdict.Met)]
    [InlineData(-5, Grade.III, Verdict.Met)]
    [InlineData(5.1, Grade.II, Verdict.Met)]
    [InlineData(10, Grade.II, Verdict.Met)]
    [InlineData(10.1, Grade.I, Verdict.Missed)]
    [InlineData(20, Grade.I, Verdict.Missed)]
    [InlineData(20.1, null, Verdict.Missed)]
    public void The_narrowest_grade_whose_limit_is_not_exceeded_is_reached(double value, Grade? reached, Verdict verdict)
    {
        Finding finding = Findings.Graded("step", "offset", VoiceRole.Sung, Grade.II, Fault.Offset, value, Limits, "");
        Assert.Equal((reached, verdict, 10.0, "c"), (finding.Reached, finding.Verdict, finding.Limit, finding.Unit));
    }

    /// <summary>The first and last 150 ms of what is asked and of what is heard are its transients: 15 frames each.</summary>
    [Fact]
    public void Edges_of_what_is_asked_and_of_what_is_heard_do_not_count()
    {
        SoundedPoint[] all = [.. Played(100, _ => 0).Counted(VoiceRole.Played)];
        Assert.Equal((0.15, 0.84), (Math.Round(all[0].Seconds, 6), Math.Round(all[^1].Seconds, 6)));
        SoundedPoint[] late = [.. Played(100, i => i is >= 30 and < 70 ? 0 : null).Counted(VoiceRole.Played)];
        Assert.InRange(late[0].Seconds, 0.445, 0.455);
        Assert.InRange(late[^1].Seconds, 0.525, 0.545);
    }

    /// <summary>Short notes that follow each other lose their outer quarters at a leap, long ones 150 ms; a bend of 40 c is no leap.</summary>
    [Theory]
    [InlineData(0.4, 200, 0.1)]
    [InlineData(1.0, 200, 0.15)]
    [InlineData(1.0, 102.4, 0.0)]
    public void Where_the_path_leaps_the_transient_does_not_count(double noteSeconds, double secondHz, double edge)
    {
        int middle = (int)Math.Round(100 * noteSeconds);
        TakeTrack track = Track(2 * noteSeconds, Part(VoiceRole.Played, (0, noteSeconds, 100), (noteSeconds, 2 * noteSeconds, secondHz)), null,
            Frames(0, 2 * middle, i => Frame(i, i < middle ? 100 : secondHz, null)));
        double[] counted = [.. track.Counted(VoiceRole.Played).Select(point => Math.Round(point.Seconds - noteSeconds, 6)).Where(at => Math.Abs(at) < 0.2)];
        double[] after = [.. counted.Where(at => at >= 0)];
        double[] before = [.. counted.Where(at => at < 0)];
        Assert.InRange(after.Min(), edge - 1e-6, edge + 0.0101);
        Assert.InRange(before.Max(), -edge - 0.0101, -edge + 1e-6);
    }

    [Theory]
    [InlineData(VoiceRole.Played, 100, 150, -30)]
    [InlineData(VoiceRole.Sung, 150, 100, 20)]
    public void A_window_of_a_swing_knows_the_other_tone_and_where_its_own_should_be(VoiceRole role, double zeroHz, double other, double otherCents)
    {
        TakeTrack track = Track(1, Part(VoiceRole.Played, (0, 1, 100)), Part(VoiceRole.Sung, (0, 1, 150)), Frames(0, 100, i => Frame(i, Up(100, 20), i == 50 && role == VoiceRole.Played ? null : Up(150, -30))));
        SwingWindow[] windows = [.. track.Swings(role, 2)];
        Assert.Equal(track.Counted(role).Select(point => Math.Round(point.Seconds + 2, 6)), windows.Select(window => Math.Round(window.Seconds, 6)));
        Assert.All(windows, window => Assert.Equal(zeroHz, window.ZeroHz, 1e-9));
        Assert.All(windows, window =>
        {
            bool isAlone = role == VoiceRole.Played && Math.Round(window.Seconds, 6) == 2.5;
            Assert.Equal(isAlone, window.OtherHz is null);
            Assert.True(isAlone || Math.Abs(window.OtherHz!.Value - Up(other, otherCents)) < 1e-9);
        });
        Assert.Equal(windows.Select(window => window.Frame.CentreSeconds + 2), windows.Select(window => window.Seconds));
    }

    [Theory]
    [InlineData(0.2, true)]
    [InlineData(0.19, false)]
    public void An_estimate_that_is_hardly_believed_is_not_heard(double confidence, bool isHeard)
    {
        TakeTrack track = Track(1, Part(VoiceRole.Played, (0, 1, 100)), null, Frames(0, 100, i => Frame(i, 100, null, confidence: confidence)));
        Assert.Equal(isHeard, track.Played[50].FrequencyHz is not null);
        Assert.Equal(isHeard, track.Played[50].LevelDbfs is not null);
    }

    [Theory]
    [InlineData(39, Verdict.NotTold)]
    [InlineData(40, Verdict.Met)]
    public void A_place_takes_a_tenth_of_a_second(int heard, Verdict verdict)
    {
        // 15 frames go at each end of what was heard; 10 of 40 are left.
        Finding finding = PitchCriteria.Offset(Played(200, i => i >= 50 && i < 50 + heard ? 0 : null), new OffsetCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
        Assert.True(verdict == Verdict.Met || finding.Text == "The played tone was not heard long enough to tell.");
    }

    [Theory]
    [InlineData(12, "rose", Verdict.Missed)]
    [InlineData(-12, "sank", Verdict.Missed)]
    [InlineData(9, "rose", Verdict.Met)]
    [InlineData(-9, "sank", Verdict.Met)]
    public void Drift_is_told_with_its_way(double cents, string way, Verdict verdict)
    {
        // Points from 0.15 to 1.84 s and twice the edge: 1.69 + 0.3 s of a line that rises so much in 2 s.
        Finding finding = PitchCriteria.Drift(Played(200, i => cents * i / 200.0), new DriftCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
        Assert.Equal(cents * 1.99 / 2, finding.Value!.Value, 6);
        Assert.Equal(FormattableString.Invariant($"The played tone {way} {Math.Abs(cents):0} c from beginning to end; asked within 10 c."), finding.Text);
        Assert.True(verdict == Verdict.Met || finding.Fault == Fault.Drift);
    }

    [Fact]
    public void Wander_is_told_and_vibrato_beside_it_is_no_fault()
    {
        Finding wander = PitchCriteria.Spread(Played(400, i => 20 * Math.Sin(2 * Math.PI * 1.5 * i / 100.0)), new SpreadCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal((Verdict.Missed, Fault.Spread), (wander.Verdict, wander.Fault));
        Assert.Equal(20 / Math.Sqrt(2), wander.Value!.Value, 0.5);
        Assert.Equal("The played tone wandered 14 c; asked within 10 c.", wander.Text);
        Finding vibrato = PitchCriteria.Spread(Played(400, i => 20 * Math.Sin(2 * Math.PI * 5.5 * i / 100.0)), new SpreadCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal((Verdict.Met, "The played tone did not wander; asked within 10 c. Vibrato of 20 c each way is no fault and not counted."), (vibrato.Verdict, vibrato.Text));
    }

    private static TakeTrack WithVoice(int hundredths, double entersSeconds, Func<int, double?> cents) => Track(
        hundredths / 100.0, Part(VoiceRole.Played, (0, hundredths / 100.0, 100)), Part(VoiceRole.Sung, (0, entersSeconds, 0), (entersSeconds, hundredths / 100.0, 150)),
        Frames(0, hundredths, i => Frame(i, cents(i) is { } c ? Up(100, c) : null, i >= 100 * entersSeconds ? 150 : null)));

    /// <summary>Where a tone stood before the other came is what it is held against; a quarter of a second is what a shift has to last.</summary>
    [Theory]
    [InlineData(15, 15, Verdict.Missed)]
    [InlineData(-15, -15, Verdict.Missed)]
    [InlineData(9, 9, Verdict.Met)]
    public void A_shift_when_the_other_comes_is_a_flinch(double cents, double told, Verdict verdict)
    {
        Finding finding = PitchCriteria.Steady(WithVoice(600, 3, i => i is >= 350 and < 400 ? 4 + cents : 4), new SteadyCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
        Assert.Equal(told, finding.Value!.Value, 6);
        Assert.Equal(FormattableString.Invariant($"The played tone shifted at most {told:+0;-0;0} c from where it stood; asked within 10 c."), finding.Text);
        Assert.True(verdict == Verdict.Met || finding.Fault == Fault.Flinch);
    }

    [Fact]
    public void A_shift_before_the_other_came_or_for_a_tenth_of_a_second_is_no_flinch()
    {
        var criterion = new SteadyCriterion(VoiceRole.Played, Limits);
        Assert.Equal(0, PitchCriteria.Steady(WithVoice(600, 3, i => i is >= 100 and < 150 ? 30 : 0), criterion, Grade.II).Value!.Value, 6);
        Assert.Equal(0, PitchCriteria.Steady(WithVoice(600, 3, i => i is >= 400 and < 410 ? 30 : 0), criterion, Grade.II).Value!.Value, 6);
    }

    /// <summary>
    /// Where the other comes less than half a second after the first counted point (at 0.15 s), the first second of the tone is where it stood: a
    /// shift that fills less than half of it is not seen there, and one after it is.
    /// </summary>
    [Theory]
    [InlineData(0.0, 15, 55, 0)]
    [InlineData(0.0, 116, 156, 30)]
    [InlineData(0.6, 70, 110, 0)]
    [InlineData(0.7, 70, 110, 30)]
    public void A_tone_that_begins_with_the_other_is_held_against_its_first_second(double enters, int from, int to, double told)
    {
        Finding finding = PitchCriteria.Steady(WithVoice(400, enters, i => i >= from && i < to ? 30 : 0), new SteadyCriterion(VoiceRole.Played, new GradeLimits(99, 99, 99)), Grade.II);
        Assert.Equal(told, finding.Value!.Value, 6);
    }

    [Fact]
    public void A_tone_that_stops_before_the_other_comes_is_not_told_steady()
    {
        Finding finding = PitchCriteria.Steady(WithVoice(600, 3, i => i < 250 ? 0 : null), new SteadyCriterion(VoiceRole.Played, Limits), Grade.II);
        Assert.Equal((Verdict.NotTold, "The played tone was not heard both before and while the other moved."), (finding.Verdict, finding.Text));
        Assert.Equal(Verdict.NotTold, PitchCriteria.Steady(WithVoice(600, 3, i => i < 39 ? 0 : null), new SteadyCriterion(VoiceRole.Played, Limits), Grade.II).Verdict);
    }

    [Theory]
    [InlineData(24, 0, Verdict.Met, "The played tone glided in one piece.")]
    [InlineData(26, 0, Verdict.Missed, "The played tone broke off for 0.3 s within the glide.")]
    [InlineData(0, 69, Verdict.Met, "The played tone glided in one piece.")]
    [InlineData(0, 71, Verdict.Missed, "The played tone jumped +71 c within the glide.")]
    [InlineData(0, -71, Verdict.Missed, "The played tone jumped -71 c within the glide.")]
    [InlineData(30, 200, Verdict.Missed, "The played tone broke off for 0.3 s within the glide.")]
    public void A_glide_is_one_piece_without_a_long_silence_or_a_jump(int silent, double jump, Verdict verdict, string text)
    {
        Finding finding = PitchCriteria.Unbroken(Played(300, i => i >= 100 && i < 100 + silent ? null : i < 150 ? 0 : jump), new UnbrokenCriterion(VoiceRole.Played));
        Assert.Equal((verdict, text), (finding.Verdict, finding.Text));
        bool broke = silent == 26 || silent == 30;
        Assert.Equal((broke ? 0.25 : 70, broke ? "s" : "c"), (finding.Limit, finding.Unit));
        Assert.Equal(broke ? silent / 100.0 : jump, finding.Value!.Value, 6);
        Assert.True(verdict == Verdict.Met || finding.Fault == Fault.Broken);
    }

    /// <summary>1000 c a second is 50 c in 50 ms: a fast glide is no jump, though it moves far in a tenth of a second; after a silence of 0.2 s nothing is called a jump.</summary>
    [Fact]
    public void A_fast_glide_is_no_jump()
    {
        Finding glide = PitchCriteria.Unbroken(Played(200, i => 10.0 * i), new UnbrokenCriterion(VoiceRole.Played));
        Assert.Equal(Verdict.Met, glide.Verdict);
        Assert.Equal(50, glide.Value!.Value, 6);
        Assert.Equal(Verdict.Met, PitchCriteria.Unbroken(Played(200, i => i < 100 ? 0 : i < 120 ? null : 300), new UnbrokenCriterion(VoiceRole.Played)).Verdict);
        Assert.Equal(Verdict.NotTold, PitchCriteria.Unbroken(Played(200, i => i < 9 ? 0 : null), new UnbrokenCriterion(VoiceRole.Played)).Verdict);
        Assert.Equal(Verdict.Met, PitchCriteria.Unbroken(Played(200, i => i < 10 ? 0 : null), new UnbrokenCriterion(VoiceRole.Played)).Verdict);
    }

    [Fact]
    public void In_fog_a_glide_goes_on_and_does_not_jump()
    {
        TakeTrack track = Track(3, Part(VoiceRole.Played, (0, 3, 100)), null, Frames(0, 300, i => i is >= 100 and < 200 ? Fog(i) : Frame(i, i < 100 ? 100 : 120, null)));
        Assert.Equal(Verdict.Met, PitchCriteria.Unbroken(track, new UnbrokenCriterion(VoiceRole.Played)).Verdict);
    }

    private static TakeTrack TwoNotes(Func<int, double?> hz, Func<int, bool>? fog = null) => Track(
        4, Part(VoiceRole.Played, (0, 2, 100), (2, 4, 150)), null, Frames(0, 400, i => fog?.Invoke(i) == true ? Fog(i) : Frame(i, hz(i), null)));

    [Theory]
    [InlineData(0.4, Verdict.Met)]
    [InlineData(0.6, Verdict.Missed)]
    public void The_second_note_is_there_in_time(double late, Verdict verdict)
    {
        int there = 200 + (int)Math.Round(100 * late);
        Finding finding = PitchCriteria.Arrival(TwoNotes(i => i < there ? 100 : 150), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II);
        Assert.Equal((verdict, 0.5, "s"), (finding.Verdict, finding.Limit, finding.Unit));
        Assert.Equal(late, finding.Value!.Value, 6);
        Assert.Equal(FormattableString.Invariant($"The played tone was there {late:0.0} s after it was asked for, at the latest; asked within 0.5 s."), finding.Text);
        Assert.True(verdict == Verdict.Met || finding.Fault == Fault.Late);
    }

    [Theory]
    [InlineData(10, true)]
    [InlineData(10.1, false)]
    [InlineData(-10.1, false)]
    public void There_means_within_the_limit_of_the_grade(double cents, bool isThere)
    {
        Finding finding = PitchCriteria.Arrival(TwoNotes(i => i < 200 ? 100 : Up(150, cents * (1 - 1e-12))), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II);
        Assert.Equal(isThere ? Verdict.Met : Verdict.Missed, finding.Verdict);
        Assert.True(isThere || (finding.Fault == Fault.Late && finding.Text == "The played tone never came within 10 c of Bb2."));
    }

    /// <summary>At its place for half a second while its octave is still being weighed, or passing through: where it stands from then on is what it is.</summary>
    [Theory]
    [InlineData(-1200, 250, Fault.WrongOctave)]
    [InlineData(386, 250, Fault.OtherNote)]
    [InlineData(386, 370, Fault.None)]
    public void A_note_that_goes_on_elsewhere_has_not_arrived(double cents, int leavesAt, Fault fault)
    {
        Finding finding = PitchCriteria.Arrival(TwoNotes(i => i < 200 ? 100 : i < leavesAt ? 150 : Up(150, cents)), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II);
        Assert.Equal((fault == Fault.None ? Verdict.Met : Verdict.Missed, fault), (finding.Verdict, finding.Fault));
    }

    [Theory]
    [InlineData(1200, true)]
    [InlineData(1274.9, true)]
    [InlineData(1125.1, true)]
    [InlineData(1276, false)]
    [InlineData(1010, false)]
    [InlineData(400, false)]
    [InlineData(-1200, true)]
    public void A_note_an_octave_away_or_another_is_told_as_that(double cents, bool isOctave)
    {
        Finding finding = PitchCriteria.Arrival(TwoNotes(i => i < 200 ? 100 : Up(150, cents)), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II);
        Assert.Equal((Verdict.Missed, isOctave ? Fault.WrongOctave : Fault.OtherNote), (finding.Verdict, finding.Fault));
        if (isOctave)
        {
            Assert.Equal($"The played tone sounded an octave or more {(cents > 0 ? "above" : "below")} Bb2.", finding.Text);
            Assert.Equal((Math.Sign(cents) * 1200.0, "c", 10.0), (finding.Value!.Value, finding.Unit, finding.Limit));
        }
        else
        {
            Assert.Equal(cents, finding.Value!.Value, 6);
            Assert.Contains($"above Bb2, +{cents:0} c.", finding.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void A_note_that_lay_in_fog_and_never_came_is_passed_over()
    {
        // The second note lies in fog for more than half of it.
        Finding finding = PitchCriteria.Arrival(TwoNotes(i => 100, i => i >= 290), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II);
        Assert.Equal(Verdict.Met, finding.Verdict);
        Assert.Equal(Verdict.Missed, PitchCriteria.Arrival(TwoNotes(i => 100, i => i >= 310), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II).Verdict);
        Finding all = PitchCriteria.Arrival(TwoNotes(i => 100, i => true), new ArrivalCriterion(VoiceRole.Played, 0.5, Limits), Grade.II);
        Assert.Equal((Verdict.NotTold, "The played tone lay in fog: too near a line of the other to be told."), (all.Verdict, all.Text));
    }

    private static TakeTrack Twice(double first, double second, int heard = 200) => Track(
        6, null, Part(VoiceRole.Sung, (0, 2, 150), (2, 4, 0), (4, 6, 150)),
        Frames(0, 600, i => Frame(i, null, i < 200 ? Up(150, first) : i >= 400 && i < 400 + heard ? Up(150, second) : null)));

    [Theory]
    [InlineData(3, 14, 11, Verdict.Missed)]
    [InlineData(3, -8, -11, Verdict.Missed)]
    [InlineData(13, 14, 1, Verdict.Met)]
    public void A_tone_comes_back_to_where_it_had_been(double first, double second, double told, Verdict verdict)
    {
        Finding finding = PitchCriteria.Return(Twice(first, second), new ReturnCriterion(VoiceRole.Sung, Limits), Grade.II);
        Assert.Equal(verdict, finding.Verdict);
        Assert.Equal(told, finding.Value!.Value, 6);
        Assert.Equal(FormattableString.Invariant($"The sung tone came back {told:+0;-0;0} c from where it had been; asked within 10 c."), finding.Text);
        Assert.True(verdict == Verdict.Met || finding.Fault == Fault.NotReturned);
    }

    [Theory]
    [InlineData(37, Verdict.NotTold)]
    [InlineData(42, Verdict.Met)]
    public void A_return_takes_a_tenth_of_a_second_of_both(int heard, Verdict verdict) =>
        Assert.Equal(verdict, PitchCriteria.Return(Twice(0, 0, heard), new ReturnCriterion(VoiceRole.Sung, Limits), Grade.II).Verdict);

    /// <summary>From -26 to -20 dB between two frames: the level of half the tone, 6.02 dB under its median, lies just at the frame before.</summary>
    [Fact]
    public void A_tone_begins_where_its_level_crosses_half()
    {
        TakeTrack track = Track(2, Part(VoiceRole.Played, (0, 2, 100)), null, Frames(0, 200, i => i < 50 ? Frame(i, null, null) : Frame(i, 100, null, playedDb: i switch { 50 => -40, 51 => -30, 52 => -22, _ => -20 })));

        // -26.02 lies 3.98 of 8 dB over -30: 0.51 + 0.01 x 3.98 / 8.
        Assert.Equal(0.51 + (0.01 * 3.9794 / 8), PitchCriteria.OnsetSeconds(track, VoiceRole.Played)!.Value, 6);
        Assert.Equal(0.5, PitchCriteria.OnsetSeconds(Played(200, i => i < 50 ? null : 0), VoiceRole.Played)!.Value, 9);
        Assert.Null(PitchCriteria.OnsetSeconds(Played(200, _ => null), VoiceRole.Played));
    }

    /// <summary>In fog a tone may have begun long before it is told; a window or two of it at an attack are none.</summary>
    [Theory]
    [InlineData(20, false)]
    [InlineData(40, true)]
    public void A_tone_that_comes_out_of_fog_is_not_told_late(int fogFrom, bool isTold)
    {
        TakeTrack track = Track(2, Part(VoiceRole.Played, (0, 2, 100)), null, Frames(0, 200, i => i < fogFrom ? Frame(i, null, null) : i < 50 ? Fog(i) : Frame(i, 100, null)));
        Assert.Equal(isTold ? "0.50" : "not told", PitchCriteria.OnsetSeconds(track, VoiceRole.Played)?.ToString("F2", CultureInfo.InvariantCulture) ?? "not told");
        Assert.Equal(isTold ? Verdict.Missed : Verdict.NotTold, PitchCriteria.Arrival(track, new ArrivalCriterion(VoiceRole.Played, 0.4, Limits), Grade.II).Verdict);
        Assert.Equal(Verdict.Met, PitchCriteria.Arrival(track, new ArrivalCriterion(VoiceRole.Played, 0.6, Limits), Grade.II).Verdict);
    }

    /// <summary>Over a silence no rise is drawn: a blip long before is not where the tone begins, and the rise from it is none.</summary>
    [Fact]
    public void A_blip_before_the_tone_is_not_its_beginning()
    {
        TakeTrack track = Track(2, Part(VoiceRole.Played, (0, 2, 100)), null, Frames(0, 200, i => i == 10 ? Frame(i, 100, null, playedDb: -60) : i < 50 ? Frame(i, null, null) : Frame(i, 100, null)));
        Assert.Equal(0.5, PitchCriteria.OnsetSeconds(track, VoiceRole.Played)!.Value, 9);
    }

    [Theory]
    [InlineData(50, false)]
    [InlineData(51, true)]
    public void More_than_a_quarter_of_fog_is_fog(int fog, bool isFog)
    {
        TakeTrack track = Track(2, Part(VoiceRole.Played, (0, 2, 100)), Part(VoiceRole.Sung, (0, 2, 200)), Frames(0, 200, i => i < fog ? Fog(i) : Frame(i, 100, null)));
        Assert.Equal(isFog, PitchCriteria.InFog(track, VoiceRole.Sung));
        Assert.Equal(isFog, PitchCriteria.IsJudgedByBeats(track, VoiceRole.Sung));
        Assert.False(PitchCriteria.IsJudgedByBeats(track, VoiceRole.Played));
    }
}
