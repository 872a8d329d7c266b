using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Log;

public sealed class ErrorMapTests
{
    [Theory]
    [InlineData("Bb1", "Bb1-E2")]
    [InlineData("E2", "Bb1-E2")]
    [InlineData("F2", "F2-A2")]
    [InlineData("A2", "F2-A2")]
    [InlineData("B2", "Bb2-E3")]
    [InlineData("C3", "Bb2-E3")]
    public void Every_note_has_one_register(string note, string register) => Assert.Equal(register, PlayedRegister.Of(Pitch.Parse(note)).ToString());

    [Fact]
    public void Registers_follow_each_other_without_gap()
    {
        for (int midi = 22; midi < 90; midi++)
        {
            PlayedRegister register = PlayedRegister.Of(Pitch.FromMidi(midi));
            Assert.InRange(midi, register.Lowest.MidiNumber, register.Highest.MidiNumber);
            Assert.Equal(register.Highest.MidiNumber + 1, PlayedRegister.Of(Pitch.FromMidi(register.Highest.MidiNumber + 1)).LowestMidi);
        }
    }

    [Theory]
    [InlineData("Bb2", "F3", IntervalFamily.Fifth)]
    [InlineData("F3", "Bb2", IntervalFamily.Fifth)]
    [InlineData("Bb2", "D4", IntervalFamily.Tenth)]
    [InlineData("Bb2", "F4", IntervalFamily.Twelfth)]
    [InlineData("Bb1", "F4", IntervalFamily.Wider)]
    public void Intervals_have_families(string played, string sung, IntervalFamily family) => Assert.Equal(family, IntervalFamilies.Of(Pitch.Parse(played), Pitch.Parse(sung)));

    [Fact]
    public void The_median_take_tells_in_which_respect_and_by_how_much()
    {
        LoggedTake Take(double offset, double spread) => Logged(new SimulatedTone { OffsetCents = offset, SpreadCents = spread });
        ErrorCell cell = Assert.Single(ErrorMap.Of([Take(-4, 20), Take(6, 22), Take(40, 90)]).Cells);
        Assert.Equal((ErrorKind.Wander, VoiceRole.Sung, 3), (cell.Kind, cell.Role!.Value, cell.Takes));
        Assert.Equal(22, cell.Value, 22 * 0.15);
        Assert.Equal(6, cell.OffsetCents!.Value, 2.0);
        Assert.Equal($"fifth, Bb2-E3: the voice wanders {cell.Value:0} c", cell.Words(NoteNaming.English));
        Assert.Contains("B2-E3", cell.Words(NoteNaming.German), StringComparison.Ordinal);
    }

    /// <summary>Only that it goes in one piece is asked of the gliding voice of exercise 20: 30 c about the line are no error of it.</summary>
    [Fact]
    public void A_free_glide_is_no_error()
    {
        LoggedTake crossing = new(LogRig.Record("a", LogRig.Monday, new SimulatedTone { OffsetCents = 30 }, "voice-crosses"), []);
        Assert.Equal(30, crossing.Take.Result.Sung!.OffsetCents!.Value, 3.0);
        Assert.Null(TakeError.Of(crossing.Take).OffsetCents);
        Assert.InRange(TakeError.Of(crossing.Take).WanderCents!.Value, 0, 2);
        Assert.InRange(TakeError.Of(Logged(new SimulatedTone { OffsetCents = 30 }).Take).OffsetCents!.Value, 28, 32);
    }

    /// <summary>Where only steadiness is asked, a tone 40 c from the page, or a tone of the player's own, is no error; its wander is.</summary>
    [Theory]
    [InlineData(40)]
    [InlineData(300)]
    public void A_place_that_was_not_asked_is_no_error(double cents)
    {
        JudgedTake judged = LogRig.Judged(played: new SimulatedTone { OffsetCents = cents, SpreadCents = 20 }, sung: new SimulatedTone { OffsetCents = cents }, exercise: "long-breath");
        TakeError error = TakeError.Of(TakeRecord.Of(judged, null, "a", "a.wav", LogRig.Monday, withFrames: false));
        Assert.Null(error.OffsetCents);
        Assert.False(error.IsOtherNote);
        Assert.Equal(VoiceRole.Played, error.Role);
        Assert.InRange(error.WanderCents!.Value, 15, 25);
    }

    /// <summary>In parallel fifths the interval is asked: both 30 c high with the fifth pure is no error, the voice alone 12 c high is one of 12 c.</summary>
    [Theory]
    [InlineData(30, 30, 0)]
    [InlineData(0, 12, 12)]
    [InlineData(30, 18, 12)]
    public void Where_the_interval_is_asked_its_error_counts(double played, double sung, double expected)
    {
        JudgedTake judged = LogRig.Judged(played: new SimulatedTone { OffsetCents = played }, sung: new SimulatedTone { OffsetCents = sung }, exercise: "parallel-fifths");
        TakeError error = TakeError.Of(TakeRecord.Of(judged, null, "a", "a.wav", LogRig.Monday, withFrames: false));
        Assert.InRange(error.OffsetCents!.Value, expected - 1.5, expected + 1.5);
        Assert.Null(error.Role);
    }

    /// <summary>Every take is either in a cell or told with its reason.</summary>
    [Fact]
    public void What_the_map_leaves_out_is_told_with_its_reason()
    {
        LoggedTake good = Logged(new SimulatedTone());
        TakeResult result = good.Take.Result;
        LoggedTake With(TakeResult changed) => good with { Take = good.Take with { Result = changed } };
        TakeResult open = result with { AsAsked = null, Reached = null, Findings = [] };
        Finding beats = new("a", "landing", null, Verdict.NotTold, Fault.None, null, null, "/s", null, "No beats.");
        LoggedTake[] takes =
        [
            good,
            With(open), With(open),
            With(open with { Findings = [beats] }),
            With(open with { Pair = result.Pair with { FogSeconds = 6, SeparableSeconds = 1 } }),
            With(open with { Findings = [beats with { Criterion = "bleed", Fault = Fault.Bleed }] }),
            With(result with { Played = null, Sung = null }),
            good with { Take = good.Take with { ExerciseNumber = 0 } },
        ];
        IReadOnlyList<LeftOut> all = LeftOut.Of(takes);
        Assert.Equal(
            [(WhyLeftOut.OfPassage, 1), (WhyLeftOut.Fog, 1), (WhyLeftOut.NoBeats, 1), (WhyLeftOut.UnderDrone, 1), (WhyLeftOut.NotTold, 2), (WhyLeftOut.NoFigure, 1)],
            all.Select(some => (some.Why, some.Takes)));
        Assert.Equal(takes.Length, all.Sum(some => some.Takes) + ErrorMap.Of(takes).Cells.Sum(cell => cell.ToldTakes + cell.FogTakes));
        Assert.StartsWith("5 takes could not be judged and count neither for nor against you: 1 lay in fog, ", LeftOut.NotJudgedWords(all), StringComparison.Ordinal);
        Assert.Equal("", LeftOut.NotJudgedWords(LeftOut.Of([good])));
        Assert.Equal("in fog", takes[4].WhyNotJudged);
        Assert.Null(takes[4].WhyNotScored);
    }

    [Theory]
    [InlineData(ErrorKind.Wander, 0.4, "fifth, Bb2-E3: it stands within 0 c")]
    [InlineData(ErrorKind.Offset, 9.9, "fifth, Bb2-E3: it stands within 10 c")]
    [InlineData(ErrorKind.Drift, 10, "fifth, Bb2-E3: the voice drifts 10 c")]
    [InlineData(ErrorKind.Beats, 0.5, "fifth, Bb2-E3: it all but stands still: 0.5 /s")]
    [InlineData(ErrorKind.Beats, 1, "fifth, Bb2-E3: the voice beats 1.0 /s")]
    public void A_figure_that_no_grade_calls_a_fault_is_not_told_as_one(ErrorKind kind, double value, string words)
    {
        PlayedRegister register = Assert.Single(ErrorMap.Of([Logged(new SimulatedTone { OffsetCents = 4 })]).Cells).Register;
        var cell = new ErrorCell(IntervalFamily.Fifth, register, 1, kind, value, VoiceRole.Sung, null, null, null, null);
        Assert.Equal(words, cell.Words(NoteNaming.English));
    }

    [Fact]
    public void In_fog_the_map_holds_beats()
    {
        ErrorCell cell = Assert.Single(ErrorMap.Of([Logged(new SimulatedTone { OffsetCents = 12 }, "land-on-the-octave")]).Cells);
        Assert.Equal((IntervalFamily.Octave, ErrorKind.Beats), (cell.Family, cell.Kind));
        Assert.Null(cell.OffsetCents);
        Assert.EndsWith("/s", cell.Figure, StringComparison.Ordinal);
    }

    /// <summary>A beat a second at the unison is 1200 log2(1 + 1/f) cents: 15 c over Bb2 (116.54 Hz), 29 over Bb1, 5 over F4. Judging calls the same cents still everywhere, and so does the map.</summary>
    [Theory]
    [InlineData(Instrument.Tuba, VoiceKind.Low, 0.5)]
    [InlineData(Instrument.Trombone, VoiceKind.Low, 1.0)]
    [InlineData(Instrument.Horn, VoiceKind.High, 1.5)]
    public void Beats_are_a_fault_where_judging_calls_them_one(Instrument instrument, VoiceKind voice, double about)
    {
        ErrorCell Cell(double cents)
        {
            JudgedTake judged = LogRig.Judged(sung: new SimulatedTone { OffsetCents = cents }, exercise: "land-on-the-octave", instrument: instrument, voice: voice);
            return Assert.Single(ErrorMap.Of([new LoggedTake(TakeRecord.Of(judged, null, "a", "a.wav", LogRig.Monday, withFrames: false), [])]).Cells);
        }

        ErrorCell off = Cell(12);
        Assert.Equal(ErrorKind.Beats, off.Kind);
        Assert.InRange(off.StillBelowPerSecond, 0.7 * about, 1.4 * about);
        int lowest = off.Register.Lowest.MidiNumber;
        Assert.Equal(1.0, off.StillBelowPerSecond / Math.Pow(2, (lowest - 46) / 12.0), 0.01);
        double hz = 2 * EqualTemperament.FrequencyHz(lowest, 440);
        double limitCents = 1200 * Math.Log2(1 + (off.StillBelowPerSecond / hz));
        Assert.False(Cell(1.5 * limitCents).IsSound);
        Assert.True(Cell(0.5 * limitCents).IsSound);
        Assert.True(Cell(0).IsSound);
    }

    /// <summary>Two takes of three beat faster than their own exercises allow; the median rate lies under the median limit all the same.</summary>
    [Fact]
    public void Each_take_is_held_against_its_own_limit_where_exercises_differ()
    {
        LoggedTake Beating(double rate, double below)
        {
            LoggedTake take = Logged(new SimulatedTone { OffsetCents = 12 }, "land-on-the-octave");
            TakeResult result = take.Take.Result;
            return take with { Take = take.Take with { Result = result with { Pair = result.Pair with { MedianBeatsPerSecond = rate, StillBelowPerSecond = below } } } };
        }

        ErrorCell cell = Assert.Single(ErrorMap.Of([Beating(0.45, 0.4), Beating(0.9, 0.8), Beating(0.5, 0.8)]).Cells);
        Assert.Equal((ErrorKind.Beats, 0.5, 0.8), (cell.Kind, cell.Value, cell.StillBelowPerSecond));
        Assert.Equal(1.125, cell.BeatsOverStill, 1e-9);
        Assert.False(cell.IsSound);
        Assert.Equal("the pair beats 0.5 /s", cell.What);
        ErrorCell still = Assert.Single(ErrorMap.Of([Beating(0.35, 0.4), Beating(0.5, 0.8), Beating(0.9, 0.4)]).Cells);
        Assert.Equal(0.875, still.BeatsOverStill, 1e-9);
        Assert.True(still.IsSound);
    }

    [Fact]
    public void Takes_of_passages_are_many_pairs_and_not_counted_under_their_first()
    {
        LoggedTake take = Logged(new SimulatedTone { OffsetCents = 40 });
        LoggedTake passage = take with { Take = take.Take with { ExerciseNumber = PassageExercise.NoNumber } };
        Assert.Empty(ErrorMap.Of([passage]).Cells);
        Assert.Equal(1, Assert.Single(ErrorMap.Of([take, passage]).Cells).Takes);
        Assert.Equal(1, Assert.Single(WeekTrend.Of(ErrorMap.Of([take]).Cells[0], [take, passage], TimeZoneInfo.Utc).Weeks).Takes);
        Assert.True(passage.IsScored);
    }

    [Fact]
    public void A_take_spoiled_by_the_drone_does_not_count()
    {
        LoggedTake spoiled = Logged(new SimulatedTone { OffsetCents = 40 });
        spoiled = spoiled with { Take = spoiled.Take with { Drone = new DroneInTake(true, -3, -10) } };
        Assert.Empty(ErrorMap.Of([spoiled]).Cells);
        Assert.Single(ErrorMap.Of([spoiled with { Take = spoiled.Take with { Drone = new DroneInTake(true, -3, -30) } }]).Cells);
    }

    [Fact]
    public void Weeks_of_rest_are_weeks_too()
    {
        LoggedTake[] takes = [Logged(new SimulatedTone { SpreadCents = 30 }, day: 0), Logged(new SimulatedTone { SpreadCents = 20 }, day: 15), Logged(new SimulatedTone { SpreadCents = 24 }, day: 18)];
        WeekTrend trend = WeekTrend.Of(ErrorMap.Of(takes).Cells[0], takes, TimeZoneInfo.Utc);
        Assert.Equal([1, 0, 2], trend.Weeks.Select(week => week.Takes));
        Assert.Null(trend.Weeks[1].Value);
        Assert.Equal(22, trend.Weeks[2].Value!.Value, 3.5);
        Assert.Equal(new DateOnly(2026, 9, 7), trend.Weeks[0].Monday);
    }

    [Fact]
    public void Sureness_is_counted_over_the_last_sentences()
    {
        // Played and sung true, beating, held: what a take with the voice 9 c high is.
        LoggedTake take = Logged(new SimulatedTone { OffsetCents = 9 });
        LoggedTake Said(SaidPitch sung, Sureness sure) => take with { Take = take.Take with { Said = new Saying(SaidPitch.True, sung, SaidPair.Beat, SaidLine.Held, sure) } };
        IReadOnlyList<SurenessFigure> figures = SurenessFigure.Of(
            [.. Enumerable.Repeat(Said(SaidPitch.True, Sureness.Certain), 5), .. Enumerable.Repeat(Said(SaidPitch.Low, Sureness.Certain), 8), Said(SaidPitch.True, Sureness.Guessing), take]);
        Assert.Equal([new SurenessFigure(Sureness.Guessing, 1, 1), new SurenessFigure(Sureness.Certain, 2, 10)], figures);
        Assert.Equal("certain: not once right in the last 2", new SurenessFigure(Sureness.Certain, 0, 2).Words);
        Assert.Equal("certain: right twice of the last 10", figures[1].Words);
    }

    [Fact]
    public void Sung_minutes_are_counted_by_block_day_and_week_and_a_rest_ends_the_block()
    {
        static PracticeSpell Sung(double minutesAfter, double seconds) => new(LogRig.Monday.AddMinutes(minutesAfter), "", "x", seconds, seconds);
        PracticeSpell[] spells = [Sung(-60 * 24 * 2, 999), Sung(0, 100), Sung(4, 120), Sung(8, 90)];
        VoiceLoad load = VoiceLoad.Of(spells, LogRig.Monday.AddMinutes(9), TimeZoneInfo.Utc);
        Assert.Equal((310.0, 310.0, 310.0), (load.TodaySeconds, load.WeekSeconds, load.BlockSeconds));
        Assert.True(load.IsBlockFull);
        Assert.Equal(0, VoiceLoad.Of(spells, LogRig.Monday.AddMinutes(14), TimeZoneInfo.Utc).BlockSeconds);
        load = VoiceLoad.Of([.. spells, Sung(16, 60)], LogRig.Monday.AddMinutes(17), TimeZoneInfo.Utc);
        Assert.Equal((370.0, 60.0), (load.TodaySeconds, load.BlockSeconds));
        Assert.Equal(0, VoiceLoad.Of(spells, LogRig.Monday.AddDays(1), TimeZoneInfo.Utc).TodaySeconds);
    }

    private static LoggedTake Logged(SimulatedTone sung, string exercise = "open-home-pair", int day = 0) =>
        new(LogRig.Record($"take-{day}", LogRig.Monday.AddDays(day), sung, exercise), []);
}
