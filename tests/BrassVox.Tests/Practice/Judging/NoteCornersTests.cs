using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;
using static BrassVox.Tests.Practice.Judging.JudgingCornersTests;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Notes of late players, half in fog, without a label: where judging plain notes says nothing. No outside source: the truth is the drawing.</summary>
public sealed class NoteCornersTests
{
    private static readonly GradeLimits Limits = new(30, 20, 10);
    private static readonly NotesCriterion ByNote = new(new GradeLimits(40, 30, 20), 0.2, 0.75);

    /// <summary>A line half a second late, its last note beyond the end of the step, 5 c high; the voice with it 9 c low. Each is measured where it sounded.</summary>
    [Fact]
    public void A_late_line_is_followed_beyond_the_end_and_measured_where_it_sounded()
    {
        double[] line = [100, 112.2, 126, 141.4];
        double? At(int i, double factor, double cents) => i is >= 50 and < 450 ? Up(factor * line[(i - 50) / 100], cents) : null;
        TakeResult result = Judge(4, Part(VoiceRole.Played, [.. line.Select((hz, i) => ((double)i, i + 1.0, hz))]), Part(VoiceRole.Sung, [.. line.Select((hz, i) => ((double)i, i + 1.0, 1.5 * hz))]),
            i => Frame(i, At(i, 1, 5), At(i, 1.5, -9)), ByNote);
        Assert.All(result.Notes, note => Assert.Equal(0.5, note.LateSeconds!.Value, 0.011));
        Assert.All(result.Notes, note => Assert.Equal(note.Role == VoiceRole.Played ? 5 : -9, note.Cents!.Value, 6));
        Assert.Equal((5.0, -9.0), (Math.Round(result.Played!.OffsetCents!.Value, 6), Math.Round(result.Sung!.OffsetCents!.Value, 6)));
        Assert.Equal((0.0, 0.0), (Math.Round(result.Played.SpreadCents!.Value, 6), Math.Round(result.Sung.SpreadCents!.Value, 6)));
    }

    /// <summary>10 c a second over two steps from 1 s of the stream on: the line is drawn on the clock of the take.</summary>
    [Fact]
    public void Notes_of_several_steps_lie_on_one_clock()
    {
        ExerciseStep step = Step(2, Played(2), null, ByNote);
        TakeResult result = TakeJudge.Judge(Exercise(1, Pair(100, 150), step with { Id = "a" }, step with { Id = "b" }), Frames(0, 560, i => Frame(i, i is >= 100 and < 500 ? Up(100, 0.1 * (i - 300)) : null, null)), 1);
        Assert.Equal([0.0, 2.0], result.Notes.Select(note => note.AskedSeconds));

        // Points from 0.1 s to 3.9 s, twice 150 ms beyond.
        Assert.Equal(10 * 4.1, result.Played!.DriftCents!.Value, 0.5);
        Assert.Equal(0, result.Played.SpreadCents!.Value, 0.01);
    }

    /// <summary>The second note of the voice comes 0.3 s after that of the lips: the one is late, the other is not.</summary>
    [Fact]
    public void A_note_begins_where_it_is_heard_and_not_where_the_other_is()
    {
        TakeResult result = Judge(2, Part(VoiceRole.Played, (0, 1, 100), (1, 2, 112.2)), Part(VoiceRole.Sung, (0, 1, 150), (1, 2, 168.3)),
            i => i is < 0 or >= 200 ? Frame(i, null, null) : i < 100 ? Frame(i, 100, 150) : Frame(i, 112.2, i < 130 ? null : 168.3), ByNote);
        Assert.Equal([0.0, 0.0, 0.0, 0.3], result.Notes.Select(note => Math.Round(note.LateSeconds!.Value, 6)));
        Assert.Equal("3 of 4 notes as asked, 75 per cent wanted. Farthest: S Bb2 at 1.2 came 0.30 s late.", result.Findings.Single(finding => finding.Criterion == "notes").Text);

        // On a line of the other, the other is enough to say that it began: both 0.2 s late.
        TakeResult octave = Judge(2, Played(2), Sung(2, 200), i => Frame(i, i is >= 20 and < 200 ? 100 : null, null), ByNote);
        Assert.All(octave.Notes, note => Assert.Equal(0.2, note.LateSeconds!.Value, 0.011));
        TakeResult fog = Judge(2, Played(2), Sung(2, 200), i => i is >= 20 and < 200 ? Fog(i, 1) : Frame(i, null, null), ByNote);
        Assert.All(fog.Notes, note => Assert.Equal(0.2, note.LateSeconds!.Value, 0.011));
        Assert.Equal(Grade.III, fog.Findings.Single(finding => finding.Criterion == "notes").Reached);
    }

    [Theory]
    [InlineData(40, false)]
    [InlineData(60, true)]
    public void A_note_lay_in_fog_when_most_of_it_did(int fog, bool isFog)
    {
        NoteResult note = Judge(1, Played(1), Sung(1, 200), i => i is < 0 or >= 100 ? Frame(i, null, null) : i < 50 - (fog / 2) || i >= 50 + (fog / 2) ? Frame(i, 100, Up(200, 7)) : Fog(i, 1), ByNote).Notes[1];
        Assert.Equal((VoiceRole.Sung, isFog), (note.Role, note.IsFog));
        Assert.Equal(isFog ? (double?)null : 7, note.Cents is { } cents ? Math.Round(cents, 6) : null);
        Assert.Equal(isFog ? 1.0 : null, note.BeatsPerSecond);
    }

    [Fact]
    public void A_rate_goes_before_a_bound_on_it_and_without_either_no_note_is_told()
    {
        Assert.Equal(3.0, Judge(1, Played(1), Sung(1, 200), i => i is < 0 or >= 100 ? Frame(i, null, null) : Fog(i, 3, 0.5), ByNote).Notes[1].BeatsPerSecond);
        Finding none = Judge(1, Played(1), Sung(1, 200), i => i is < 0 or >= 100 ? Frame(i, null, null) : Fog(i), ByNote).Findings.Single(finding => finding.Criterion == "notes");
        Assert.Equal((Verdict.NotTold, "No note could be told."), (none.Verdict, none.Text));
        TakeTrack track = Track(2, Played(2), Sung(2, 200), Frames(0, 200, i => Fog(i, 3, 0.5)));
        Assert.Equal(Verdict.Missed, PairCriteria.BeatsInstead(track, new OffsetCriterion(VoiceRole.Sung, Limits), Grade.II).Verdict);
        Assert.Equal("/s", PitchCriteria.Offset(track, new OffsetCriterion(VoiceRole.Sung, Limits), Grade.II).Unit);
    }

    /// <summary>A note without a label is told without a place.</summary>
    [Fact]
    public void A_note_without_a_label_has_no_place()
    {
        AskedPart part = Sung(1);
        Finding finding = Judge(1, null, part with { Segments = [part.Segments[0] with { Label = null }] }, i => Frame(i, null, i is >= 0 and < 100 ? Up(150, 33) : null), ByNote).Findings.Single(finding => finding.Criterion == "notes");
        Assert.Equal("0 of 1 notes as asked, 75 per cent wanted. Farthest: S Bb2 was 33 c high.", finding.Text);
    }

    /// <summary>A note of 0.4 s between long ones: its quarters go on both sides of both leaps.</summary>
    [Fact]
    public void The_shorter_of_two_notes_says_how_much_of_a_leap_does_not_count()
    {
        TakeTrack track = Track(3, Part(VoiceRole.Played, (0, 1, 100), (1, 1.4, 200), (1.4, 3, 100)), null, Frames(0, 300, i => Frame(i, i is >= 100 and < 140 ? 200 : 100, null)));
        double[] counted = [.. track.Counted(VoiceRole.Played).Select(point => point.Seconds)];
        foreach (double leap in (double[])[1, 1.4])
        {
            Assert.InRange(counted.Where(at => at > leap).Min() - leap, 0.095, 0.115);
            Assert.InRange(leap - counted.Where(at => at < leap).Max(), 0.095, 0.115);
        }
    }

    /// <summary>The first note begins 0.3 s late and takes 0.3 s more to its place: how it begins counts. The second is there at once; the worse of both is told.</summary>
    [Fact]
    public void The_first_note_is_there_when_it_begins_and_the_latest_of_all_is_told()
    {
        AskedPart part = Part(VoiceRole.Played, (0, 0.5, 0), (0.5, 2.5, 100), (2.5, 4, 150));
        TakeTrack track = Track(4, part, null, Frames(0, 400, i => Frame(i, i < 80 ? null : i < 110 ? Up(100, 40) : i < 260 ? 100 : 150, null)));
        Finding finding = PitchCriteria.Arrival(track, new ArrivalCriterion(VoiceRole.Played, 0.35, Limits), Grade.II);
        Assert.Equal((Verdict.Met, 0.3), (finding.Verdict, Math.Round(finding.Value!.Value, 6)));
    }
}
