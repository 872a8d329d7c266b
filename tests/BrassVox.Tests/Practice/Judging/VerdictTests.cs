using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Tests.Practice.Log;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Shipped exercises over which frames are drawn that do not do what is asked. No outside source: the truth is the drawing.</summary>
public sealed class VerdictTests
{
    private static TakeResult Judge(string id, Func<ResolvedExercise, int, AnalysisFrame> at)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve(id);
        return TakeJudge.Judge(resolved, Frames(0, (int)(100 * resolved.TakeSeconds) + 10, i => at(resolved, i)), 0);
    }

    private static void AssertNotJudged(TakeResult result)
    {
        string told = string.Join("; ", result.Findings.Select(finding => $"{finding.Verdict} {finding.Text}"));
        Assert.True(result.AsAsked is null, told);
        Assert.Null(result.Reached);
        Assert.StartsWith("Not judged, neither for nor against you: ", result.Next, StringComparison.Ordinal);
    }

    /// <summary>Fog without a beat, as one played tone alone reads where a unison is asked for.</summary>
    [Theory]
    [InlineData("choose-the-beats", null)]
    [InlineData("land-on-the-unison", null)]
    [InlineData("land-on-the-unison", 0.5)]
    [InlineData("land-on-the-octave", null)]
    [InlineData("land-on-the-octave", 0.5)]
    [InlineData("played-tone-crosses", 0.5)]
    [InlineData("sing-it-back", null)]
    [InlineData("sing-it-back", 0.5)]
    public void Fog_that_never_moved_is_neither_passed_nor_failed(string id, double? below) => AssertNotJudged(Judge(id, (_, i) => Fog(i, below: below)));

    [Fact]
    public void A_unison_that_beat_on_its_way_has_landed()
    {
        TakeResult result = Judge("land-on-the-unison", (_, i) => Fog(i, i < 500 ? 7 - (0.0135 * i) : 0.2));
        Assert.True(result.AsAsked);
        Assert.Equal(Grade.III, result.Reached);
    }

    [Theory]
    [InlineData("voice-glides-about-the-fifth", VoiceRole.Sung, "went 0 c of the 100 c asked for")]
    [InlineData("played-tone-bends", VoiceRole.Played, "went 0 c of the 60 c asked for")]
    [InlineData("voice-crosses", VoiceRole.Sung, "went 0 c of the 773 c asked for")]
    [InlineData("played-tone-crosses", VoiceRole.Played, "went 0 c of the 773 c asked for")]
    public void A_tone_that_does_not_glide_is_told_how_far_it_went(string id, VoiceRole role, string words)
    {
        TakeResult result = Judge(id, (resolved, i) => Frame(i, resolved.Pair.PlayedHz, 1.2 * resolved.Pair.PlayedHz));
        Assert.False(result.AsAsked);
        Finding way = Assert.Single(result.Findings, finding => finding.Criterion == "unbroken");
        Assert.Equal((Fault.ShortWay, role), (way.Fault, way.Role));
        Assert.Contains(words, way.Text, StringComparison.Ordinal);
    }

    /// <summary>Half of 100 c is wanted.</summary>
    [Theory]
    [InlineData(30, true)]
    [InlineData(20, false)]
    public void Half_the_way_is_enough(double cents, bool asAsked) => Assert.Equal(asAsked, Judge("voice-glides-about-the-fifth", (resolved, i) =>
        Frame(i, resolved.Pair.PlayedHz, Up(resolved.Pair.SungHz, cents * Math.Sin(2 * Math.PI * i / 800)))).AsAsked);

    [Theory]
    [InlineData("sing-through-the-instrument", VoiceRole.Played)]
    [InlineData("alternate", VoiceRole.Played)]
    [InlineData("alternate", VoiceRole.Sung)]
    public void A_tone_that_sounds_where_it_was_to_rest_is_told(string id, VoiceRole role)
    {
        TakeResult result = Judge(id, (resolved, i) => Frame(i, resolved.Pair.PlayedHz, resolved.Pair.SungHz));
        Assert.False(result.AsAsked);
        Assert.Contains("where it was to rest", Assert.Single(result.Findings, finding => finding.Fault == Fault.NotRested && finding.Role == role).Text, StringComparison.Ordinal);
    }

    /// <summary>The played tone leaves 0.8 s late, in a rest of 4 s: that is late, not sounding through.</summary>
    [Fact]
    public void A_late_end_is_no_broken_rest() => Assert.True(Judge("alternate", (resolved, i) =>
        Frame(i, i % 800 < 480 ? resolved.Pair.PlayedHz : null, i % 800 >= 400 ? resolved.Pair.SungHz : null)).AsAsked);

    /// <summary>Three of four steps are wanted: the fourth is sung 40 c high.</summary>
    [Fact]
    public void Enough_steps_are_as_asked_without_a_grade_and_the_advice_agrees()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("sing-it-back");
        TakeResult result = TakeJudge.Judge(resolved, SimulatedPlayer.Frames(resolved, new SimulatedTone(), new SimulatedTone { JumpCents = 40, JumpAtSeconds = resolved.StepStartSeconds(3) }), 1);
        Assert.True(result.AsAsked);
        Assert.Null(result.Reached);
        Assert.Contains(result.Findings, finding => finding.Text == "3 of 4 steps were as asked; 3 are wanted.");
        Assert.StartsWith("As asked, though not in every step. For the rest: ", result.Next, StringComparison.Ordinal);
    }

    /// <summary>2 c off and an octave low, or another note, once each: the fifth is 2 c off, not 601.</summary>
    [Theory]
    [InlineData(-1199)]
    [InlineData(400)]
    [InlineData(1586)]
    public void An_octave_slip_or_another_note_is_no_error_in_cents(double slip)
    {
        LoggedTake Sung(double cents) => new(TakeRecord.Of(LogRig.Judged(sung: new SimulatedTone { OffsetCents = cents }), null, "t", "t.wav", LogRig.Monday, withFrames: false), []);
        ErrorCell cell = Assert.Single(ErrorMap.Of([Sung(2), Sung(slip)]).Cells);
        Assert.InRange(cell.OffsetCents!.Value, 0, 3);
        Assert.Equal(1, cell.OtherNoteTakes);
        Assert.StartsWith("in 1 of 2 takes a tone was another note, or in another octave", cell.What, StringComparison.Ordinal);
    }

    /// <summary>A take that could not be judged makes no interval sound.</summary>
    [Fact]
    public void What_was_not_judged_is_in_no_cell()
    {
        TakeRecord take = TakeRecord.Of(LogRig.Judged(), null, "t", "t.wav", LogRig.Monday, withFrames: false);
        Assert.Single(ErrorMap.Of([new LoggedTake(take, [])]).Cells);
        Assert.Empty(ErrorMap.Of([new LoggedTake(take with { Result = take.Result with { AsAsked = null } }, [])]).Cells);
    }
}
