using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Notes judged one by one, on frames drawn by hand. No outside source: the truth is the drawing.</summary>
public sealed class NoteJudgeTests
{
    private static readonly NotesCriterion Criterion = new(new GradeLimits(40, 30, 20), 0.2, 0.75);
    private static readonly double[] Line = [100, 112.2, 126, 141.4];

    // Four notes of a second each; the voice a fifth above.
    private static AskedPart Played => Part(VoiceRole.Played, [.. Line.Select((hz, i) => ((double)i, i + 1.0, hz))]);

    private static AskedPart Sung => Part(VoiceRole.Sung, [.. Line.Select((hz, i) => ((double)i, i + 1.0, 1.5 * hz))]);

    private static double? At(int hundredths, double late = 0, Func<int, double>? cents = null)
    {
        int note = (int)Math.Floor(((hundredths / 100.0) - late) + 1e-9);
        return note is >= 0 and < 4 ? Up(Line[note], cents?.Invoke(note) ?? 0) : null;
    }

    private static TakeResult Judge(AskedPart? played, AskedPart? sung, Func<int, AnalysisFrame> at, NotesCriterion? criterion = null, double seconds = 4) =>
        TakeJudge.Judge(Exercise(seconds, played, sung, criterion ?? Criterion), Frames(-50, (int)(100 * seconds) + 60, at), 0);

    private static Finding Notes(TakeResult result) => result.Findings.Single(finding => finding.Criterion == "notes");

    [Fact]
    public void Notes_as_written_are_as_asked_each_in_its_place()
    {
        TakeResult result = Judge(Played, Sung, i => Frame(i, At(i), 1.5 * At(i)));
        Assert.Equal(8, result.Notes.Count);
        Assert.Equal([0.0, 0, 1, 1, 2, 2, 3, 3], result.Notes.Select(note => note.AskedSeconds));
        Assert.Equal([VoiceRole.Played, VoiceRole.Sung, VoiceRole.Played, VoiceRole.Sung], result.Notes.Take(4).Select(note => note.Role));
        Assert.Equal(["1.1", "1.1", "1.2", "1.2"], result.Notes.Take(4).Select(note => note.Label));
        Assert.All(result.Notes, note => Assert.True(note is { IsAsAsked: true, IsFog: false, BeatsPerSecond: null } && Math.Abs(note.Cents!.Value) < 1e-6 && Math.Abs(note.LateSeconds!.Value) < 0.011));
        Assert.Equal((Verdict.Met, "8 of 8 notes as asked, 75 per cent wanted.", 1.0, 0.75, Grade.III), (Notes(result).Verdict, Notes(result).Text, Notes(result).Value, Notes(result).Limit, Notes(result).Reached));
    }

    [Theory]
    [InlineData(0.15, true)]
    [InlineData(0.25, false)]
    [InlineData(-0.15, true)]
    [InlineData(-0.25, false)]
    public void A_line_that_comes_late_or_early_is_followed_and_told(double late, bool isAsAsked)
    {
        TakeResult result = Judge(Played, null, i => Frame(i, At(i, late), null));
        Assert.All(result.Notes, note => Assert.Equal(late, note.LateSeconds!.Value, 0.011));
        Assert.All(result.Notes, note => Assert.Equal(0, note.Cents!.Value, 6));
        Assert.All(result.Notes, note => Assert.Equal(isAsAsked, note.IsAsAsked));
        if (!isAsAsked)
        {
            Assert.Equal((Verdict.Missed, Fault.Late, null), (Notes(result).Verdict, Notes(result).Fault, Notes(result).Reached));
            Assert.Equal($"0 of 4 notes as asked, 75 per cent wanted. Farthest: P Bb2 at 1.1 came 0.25 s {(late > 0 ? "late" : "early")}.", Notes(result).Text);
        }
    }

    /// <summary>One tone stays on its first note for too long; the other, which changes when it should, is not told late with it.</summary>
    [Theory]
    [InlineData(VoiceRole.Played)]
    [InlineData(VoiceRole.Sung)]
    public void A_late_note_of_one_tone_makes_none_of_the_other_late(VoiceRole late)
    {
        int Held(int i) => i is >= 100 and < 135 ? 99 : i;
        TakeResult result = Judge(Played, Sung, i => Frame(i, At(late == VoiceRole.Played ? Held(i) : i), 1.5 * At(late == VoiceRole.Sung ? Held(i) : i)));
        Assert.All(result.Notes, note => Assert.Equal(note.Role == late && note.Label == "1.2" ? 0.35 : 0, note.LateSeconds!.Value, 0.011));
        Assert.Equal($"7 of 8 notes as asked, 75 per cent wanted. Farthest: {(late == VoiceRole.Played ? "P" : "S")} Bb2 at 1.2 came 0.35 s late.", Notes(result).Text.Replace("S F3", "S Bb2", StringComparison.Ordinal));
    }

    [Fact]
    public void A_take_that_ends_early_says_after_which_note()
    {
        TakeResult result = Judge(Played, Sung, i => Frame(i, i < 200 ? At(i) : null, i < 200 ? 1.5 * At(i) : null));
        Assert.EndsWith(" at 1.2 no note was met: 4 notes.", Notes(result).Text, StringComparison.Ordinal);
    }

    /// <summary>Three quarters of four are three: one note 35 c off passes, two do not. At grade I, 40 c, both are right.</summary>
    [Theory]
    [InlineData(35, 0, Verdict.Met, "3 of 4 notes as asked, 75 per cent wanted. Farthest: P Bb2 at 1.2 was 35 c high.", Grade.II)]
    [InlineData(-35, -36, Verdict.Missed, "2 of 4 notes as asked, 75 per cent wanted. Farthest: P Bb2 at 1.3 was 36 c low.", Grade.I)]
    [InlineData(29, -29, Verdict.Met, "4 of 4 notes as asked, 75 per cent wanted.", Grade.II)]
    [InlineData(41, 41, Verdict.Missed, "2 of 4 notes as asked, 75 per cent wanted. Farthest: P Bb2 at 1.2 was 41 c high.", null)]
    public void The_share_of_notes_within_the_limit_decides(double second, double third, Verdict verdict, string text, Grade? reached)
    {
        TakeResult result = Judge(Played, null, i => Frame(i, At(i, 0, note => note == 1 ? second : note == 2 ? third : 0), null));
        Assert.Equal((verdict, verdict == Verdict.Met ? Fault.None : Fault.Offset), (Notes(result).Verdict, Notes(result).Fault));
        Assert.Equal(text, Notes(result).Text);
        Assert.Equal(second == 35 ? Grade.III : reached, Notes(result).Reached);
        Assert.Equal([0, second, third, 0], result.Notes.Select(note => Math.Round(note.Cents!.Value, 6)));
    }

    [Fact]
    public void A_note_that_is_missing_is_not_found_and_the_others_keep_their_places()
    {
        TakeResult result = Judge(Played, null, i => Frame(i, i is >= 100 and < 200 ? null : At(i), null), Criterion with { Share = 0.8 });
        Assert.Equal([true, false, true, true], result.Notes.Select(note => note.IsAsAsked));
        Assert.Equal([0.0, null, 0, 0], result.Notes.Select(note => note.Cents is { } cents ? Math.Round(cents, 6) : (double?)null));
        Assert.Equal((Verdict.Missed, Fault.NoTone, "3 of 4 notes as asked, 80 per cent wanted. Farthest: P Bb2 at 1.2 was not near its note: another one, or none."), (Notes(result).Verdict, Notes(result).Fault, Notes(result).Text));
    }

    [Theory]
    [InlineData(1200, Fault.WrongOctave)]
    [InlineData(-1200, Fault.WrongOctave)]
    [InlineData(800, Fault.OtherNote)]
    [InlineData(60, Fault.Offset)]
    public void A_line_on_another_note_or_octave_is_told_as_that(double cents, Fault fault) =>
        Assert.Equal(fault, Notes(Judge(Played, null, i => Frame(i, At(i, 0, _ => cents), null))).Fault);

    [Fact]
    public void Without_a_sound_every_note_is_missing()
    {
        TakeResult result = Judge(Played, null, i => Frame(i, null, null));
        Assert.All(result.Notes, note => Assert.Equal((null, false), (note.Cents, note.IsAsAsked)));
        Assert.Equal(Fault.NoTone, Notes(result).Fault);
        TakeResult none = TakeJudge.Judge(Exercise(4, Played, null, Criterion), [], 0);
        Assert.All(none.Notes, note => Assert.Equal((null, null, false, false), (note.Cents, note.LateSeconds, note.IsFog, note.IsAsAsked)));
    }

    private static NoteResult SungOctave(Func<int, AnalysisFrame> at) =>
        Judge(Part(VoiceRole.Played, (0, 2, 100)), Part(VoiceRole.Sung, (0, 2, 200)), at, seconds: 2).Notes.Single(note => note.Role == VoiceRole.Sung);

    [Theory]
    [InlineData(2.0, true)]
    [InlineData(2.1, false)]
    public void A_note_in_fog_is_judged_by_whether_it_stands_still(double rate, bool isAsAsked)
    {
        NoteResult note = SungOctave(i => i is >= 0 and < 200 ? Fog(i, rate) : Frame(i, null, null));
        Assert.Equal((true, null, rate, isAsAsked), (note.IsFog, note.Cents, note.BeatsPerSecond, note.IsAsAsked));
        Assert.Equal((double?)rate, SungOctave(i => i is >= 0 and < 200 ? Fog(i, null, rate) : Frame(i, null, null)).BeatsPerSecond);
        NoteResult untold = SungOctave(i => i is >= 0 and < 200 ? Fog(i, i is >= 100 and < 103 ? rate : null) : Frame(i, null, null));
        Assert.Equal((null, null), (untold.BeatsPerSecond, untold.IsAsAsked));
    }

    [Fact]
    public void One_tone_that_stands_on_a_line_of_the_other_may_read_as_one()
    {
        NoteResult note = SungOctave(i => i is >= 0 and < 200 ? Frame(i, 100, null) : Frame(i, null, null));
        Assert.Equal((true, null, null), (note.IsFog, note.Cents, note.IsAsAsked));
        Assert.Equal(0, note.LateSeconds!.Value, 0.011);
        NoteResult missing = Judge(Part(VoiceRole.Played, (0, 2, 100)), Part(VoiceRole.Sung, (0, 2, 150)), i => i is >= 0 and < 200 ? Frame(i, 100, null) : Frame(i, null, null), seconds: 2).Notes[1];
        Assert.Equal((false, null, false), (missing.IsFog, missing.Cents, missing.IsAsAsked));
    }

    [Fact]
    public void Fog_where_none_is_written_is_another_interval()
    {
        TakeResult result = Judge(Played, Sung, i => At(i) is null ? Frame(i, null, null) : Fog(i, 0.5));
        Assert.All(result.Notes, note => Assert.Equal((true, false), (note.IsFog, note.IsAsAsked)));
        Assert.Equal((Fault.Interval, "0 of 8 notes as asked, 75 per cent wanted. Farthest: P Bb2 at 1.1 beat or lay on a line of the other."), (Notes(result).Fault, Notes(result).Text));
    }

    [Fact]
    public void Only_what_sounds_within_its_note_counts_towards_the_place_of_the_tone()
    {
        // A tenth of a second at each end of a note is its transient.
        TakeResult result = Judge(Played, null, i => Frame(i, At(i) is { } hz ? Up(hz, i % 100 is < 9 or > 90 ? 60 : 5) : null, null));
        Assert.All(result.Notes, note => Assert.Equal(5, note.Cents!.Value, 6));
        Assert.Equal(5, result.Played!.OffsetCents!.Value, 6);
        Assert.Equal(0, result.Played.SpreadCents!.Value, 6);
    }

    [Fact]
    public void Moments_are_the_stretches_in_which_nothing_changes()
    {
        IReadOnlyList<ScoreAlignment.Moment> moments = ScoreAlignment.Moments(Part(VoiceRole.Played, (0, 1, 100), (1, 2, 0), (2, 3, 120)), Part(VoiceRole.Sung, (0, 0.5, 0), (0.5, 3, 150)), 3.5);
        Assert.Equal([0.0, 0.5, 1, 2, 3], moments.Select(moment => moment.FromSeconds));
        Assert.Equal([0.5, 1, 2, 3, 3.5], moments.Select(moment => moment.ToSeconds));
        Assert.Equal([100.0, 100, null, 120, null], moments.Select(moment => moment.PlayedHz is { } hz ? Math.Round(hz, 6) : (double?)null));
        Assert.Equal([null, 150.0, 150, 150, null], moments.Select(moment => moment.SungHz is { } hz ? Math.Round(hz, 6) : (double?)null));
        Assert.Equal([false, false, false, false, true], moments.Select(moment => moment.IsSilent));
    }

    [Fact]
    public void Frames_lie_along_the_moments_before_within_and_after()
    {
        IReadOnlyList<ScoreAlignment.Moment> moments = ScoreAlignment.Moments(Part(VoiceRole.Played, (0, 1, 100), (1, 2, 120)), null, 2);
        int[] path = ScoreAlignment.Align(Frames(0, 300, i => Frame(i, i switch { < 50 => null, < 160 => 100, < 250 => 120, _ => null }, null)), moments, 0);
        Assert.Equal([-1, 0, 1, 2], path.Distinct());
        Assert.Equal([50, 160, 250], new[] { 0, 1, 2 }.Select(moment => Array.IndexOf(path, moment)));
    }

    /// <summary>Repeated notes sound alike; the declared clock tells which is which.</summary>
    [Fact]
    public void Of_notes_that_sound_alike_the_clock_decides()
    {
        IReadOnlyList<ScoreAlignment.Moment> moments = ScoreAlignment.Moments(Part(VoiceRole.Played, (0, 1, 100), (1, 2, 100)), null, 2);
        int[] path = ScoreAlignment.Align(Frames(0, 200, i => Frame(i, 100, null)), moments, 0);
        Assert.Equal(100, Array.IndexOf(path, 1), 2.0);
        int[] later = ScoreAlignment.Align(Frames(500, 700, i => Frame(i, 100, null)), moments, 5);
        Assert.Equal(path, later);
    }

    [Fact]
    public void A_note_that_was_left_out_gets_next_to_nothing()
    {
        IReadOnlyList<ScoreAlignment.Moment> moments = ScoreAlignment.Moments(Part(VoiceRole.Played, (0, 1, 100), (1, 2, 120), (2, 3, 150)), null, 3);
        int[] path = ScoreAlignment.Align(Frames(0, 200, i => Frame(i, i < 100 ? 100 : 150, null)), moments, 0);
        Assert.InRange(path.Count(moment => moment == 1), 0, 3);
        Assert.Equal(100, Array.IndexOf(path, 2), 3.0);
    }
}
