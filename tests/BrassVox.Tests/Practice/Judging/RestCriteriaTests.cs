using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>Tones that sound where they were to rest, on frames drawn by hand. No outside source: the truth is the drawing, the limits are ours.</summary>
public sealed class RestCriteriaTests
{
    // P leaves at 2 s, S holds to the end: less 0.3 s at either side, P rests from 2.3 s to 0.3 s before the end.
    private static readonly AskedPart Leaves = Part(VoiceRole.Played, (0, 2, 100), (2, 4, 0));

    private static AskedPart Holds(double seconds) => Part(VoiceRole.Sung, (0, seconds, 150));

    private static Finding[] Broken(double seconds, AskedPart? played, AskedPart? sung, Func<int, AnalysisFrame> at, IReadOnlyList<Window>? known = null) =>
        [.. RestCriteria.Broken(Track(seconds, played, sung, Frames(0, (int)Math.Round(100 * seconds), at), known))];

    /// <summary>1.4 s of rest; 0.42 s, three tenths of it, is late or early.</summary>
    [Theory]
    [InlineData(41, false)]
    [InlineData(43, true)]
    public void Three_tenths_of_a_rest_are_the_most_that_may_sound(int frames, bool isBroken)
    {
        Finding[] found = Broken(4, Leaves, Holds(4), i => Frame(i, i < 230 + frames ? 100 : null, 150));
        Assert.Equal(isBroken, found.Length == 1);
        if (isBroken)
        {
            Assert.Equal(("rest", VoiceRole.Played, Verdict.Missed, Fault.NotRested, "s"), (found[0].Criterion, found[0].Role, found[0].Verdict, found[0].Fault, found[0].Unit));
            Assert.Equal(0.43, found[0].Value!.Value, 0.0101);
            Assert.Equal(0.42, found[0].Limit!.Value, 0.004);
            Assert.Equal("The played tone sounded for 0.4 s where it was to rest.", found[0].Text);
        }
    }

    [Fact]
    public void The_voice_has_rests_as_well() => Assert.Equal("The sung tone sounded for 1.4 s where it was to rest.", Assert.Single(
        Broken(4, Part(VoiceRole.Played, (0, 4, 100)), Part(VoiceRole.Sung, (0, 2, 150), (2, 4, 0)), i => Frame(i, 100, 150))).Text);

    [Theory]
    [InlineData(3.1, true)]
    [InlineData(3.09, false)]
    public void Half_a_second_between_its_edges_makes_a_rest(double seconds, bool isBroken) =>
        Assert.Equal(isBroken, Broken(seconds, Leaves, Holds(seconds), i => Frame(i, 100, 150)).Length == 1);

    /// <summary>A rest that comes first, with its edge at the other end.</summary>
    [Fact]
    public void The_edge_before_an_entry_belongs_to_the_player() => Assert.Empty(
        Broken(4, Part(VoiceRole.Played, (0, 2, 0), (2, 4, 100)), Holds(4), i => Frame(i, i >= 170 - 41 ? 100 : null, 150)));

    /// <summary>Only what is told apart is held against the player: neither fog, nor one tone alone, nor what the tracker calls one tone.</summary>
    [Fact]
    public void Fog_and_one_tone_alone_break_no_rest()
    {
        Assert.Empty(Broken(4, Leaves, Holds(4), i => Fog(i)));
        Assert.Empty(Broken(4, Leaves, Holds(4), i => Frame(i, 100, 150, separability: Separability.NotSeparable)));
        Assert.Empty(Broken(4, Leaves, Holds(4), i => Frame(i, 100, null, separability: Separability.Separable)));
        Assert.Empty(Broken(4, Leaves, Holds(4), i => Frame(i, null, 150, separability: Separability.Separable)));
    }

    /// <summary>A tone that is asked for nowhere rests throughout, beside the one that is; where no other is asked for, there is nothing to rest beside.</summary>
    [Fact]
    public void A_tone_that_is_not_asked_for_rests() => Assert.Equal(
        [(VoiceRole.Sung, 3.4)], Broken(4, Part(VoiceRole.Played, (0, 4, 100)), null, i => Frame(i, 100, 150)).Select(finding => (finding.Role!.Value, Math.Round(finding.Value!.Value, 6))));

    [Fact]
    public void What_the_program_sounds_itself_is_no_fault_of_the_player()
    {
        ExerciseStep step = Step(4, Leaves, Holds(4)) with { Sounding = [new SoundingPart(VoiceRole.Played, PitchPath.Constant(100), [new Window(0, 4)])] };
        Assert.Empty(RestCriteria.Broken(new TakeTrack(step, Pair(100, 150), Frames(0, 400, i => Frame(i, 100, 150)), 0)));
        ExerciseStep other = step with { Sounding = [new SoundingPart(VoiceRole.Sung, PitchPath.Constant(150), [new Window(0, 4)])] };
        Assert.Single(RestCriteria.Broken(new TakeTrack(other, Pair(100, 150), Frames(0, 400, i => Frame(i, 100, 150)), 0)));
    }

    [Fact]
    public void A_step_that_was_not_heard_whole_says_nothing_of_its_rests() => Assert.Empty(Broken(4, Leaves, Holds(4), i => Frame(i, 100, 150), [new Window(0, 3.9)]));
}
