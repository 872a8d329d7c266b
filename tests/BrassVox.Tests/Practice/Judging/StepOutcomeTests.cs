using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Practice.Judging.DrawnTake;

namespace BrassVox.Tests.Practice.Judging;

/// <summary>What findings come to, step by step and of several steps. No outside source: the rules are the glossary's.</summary>
public sealed class StepOutcomeTests
{
    private static Finding Told(Verdict verdict, string criterion = "offset", Grade? reached = Grade.III, string step = "step") =>
        new(step, criterion, VoiceRole.Sung, verdict, Fault.None, null, null, "c", reached, "");

    // An octave 2 s long; in fog throughout, its beats told in so many frames.
    private static TakeTrack Octave(int told = 200, double sungHz = 200, IReadOnlyList<Window>? known = null) =>
        Track(2, Part(VoiceRole.Played, (0, 2, 100)), Part(VoiceRole.Sung, (0, 2, sungHz)), Frames(0, 200, i => Fog(i, i < told ? 1 : null)), known);

    private static StepOutcome Of(params Verdict[] verdicts) => new(Octave(sungHz: 150), verdicts.Select(verdict => Told(verdict)));

    [Fact]
    public void One_miss_is_a_miss_one_gap_leaves_it_open()
    {
        Assert.Equal((true, true), (Of(Verdict.Met, Verdict.Met).IsMet, Of(Verdict.Met).IsAsked));
        Assert.False(Of(Verdict.Met, Verdict.NotTold, Verdict.Missed).IsMet);
        Assert.Null(Of(Verdict.Met, Verdict.NotTold).IsMet);
        Assert.Equal(Verdict.NotTold, Of(Verdict.Met, Verdict.NotTold).Unmeasured!.Verdict);
        Assert.Null(Of(Verdict.Met, Verdict.Missed).Unmeasured);
        Assert.Equal((null, true), (Of(Verdict.NotTold).IsMet, Of(Verdict.NotTold).IsAsked));
        Assert.Equal((null, false), (Of().IsMet, Of().IsAsked));
    }

    [Fact]
    public void Findings_of_other_steps_are_not_its_own()
    {
        StepOutcome mine = new(Octave(sungHz: 150), [Told(Verdict.Met), Told(Verdict.Missed, step: "other"), Told(Verdict.NotTold, step: "other")]);
        Assert.Equal((true, (Finding?)null), (mine.IsMet, mine.Unmeasured));
    }

    /// <summary>Where the program's own sound lay over some of a step, what was not told of it is no gap; where nothing was told it was not asked.</summary>
    [Fact]
    public void A_step_that_was_not_heard_whole_counts_as_far_as_it_was_told()
    {
        TakeTrack half = Octave(sungHz: 150, known: [new Window(0, 1)]);
        Assert.Equal((false, (bool?)null, (Finding?)null), (new StepOutcome(half, [Told(Verdict.NotTold)]).IsAsked, new StepOutcome(half, [Told(Verdict.NotTold)]).IsMet, new StepOutcome(half, [Told(Verdict.NotTold)]).Unmeasured));
        Assert.Equal((true, (bool?)true), (new StepOutcome(half, [Told(Verdict.NotTold), Told(Verdict.Met)]).IsAsked, new StepOutcome(half, [Told(Verdict.NotTold), Told(Verdict.Met)]).IsMet));
        Assert.False(new StepOutcome(half, []).IsAsked);
    }

    /// <summary>In a pair that lies in fog as asked and whose beats are told, these say all there is; what asks for the pair itself has to be measured.</summary>
    [Theory]
    [InlineData("offset", true)]
    [InlineData("spread", true)]
    [InlineData("drift", true)]
    [InlineData("steady", true)]
    [InlineData("return", true)]
    [InlineData("interval", true)]
    [InlineData("octave", true)]
    [InlineData("second", false)]
    [InlineData("unbroken", false)]
    [InlineData("landing", false)]
    [InlineData("beatRate", false)]
    [InlineData("balance", false)]
    [InlineData("notes", false)]
    public void What_fog_does_not_tell_where_it_is_asked_for(string criterion, bool isNoGap)
    {
        Finding[] findings = [Told(Verdict.Met, "heard"), Told(Verdict.NotTold, criterion)];
        Assert.Equal(isNoGap ? true : null, new StepOutcome(Octave(), findings).IsMet);

        // Half a second of beats is what it takes, and an interval that lies in fog. Which octave it was can never be told.
        bool? elsewhere = criterion == "octave" ? true : null;
        Assert.Equal(isNoGap ? true : null, new StepOutcome(Octave(50), findings).IsMet);
        Assert.Equal(elsewhere, new StepOutcome(Octave(49), findings).IsMet);
        Assert.Equal(elsewhere, new StepOutcome(Octave(sungHz: 150), findings).IsMet);
    }

    private static StepOutcome[] Steps(string each) => [.. each.Select(step => Of(step switch { 'm' => Verdict.Met, 'x' => Verdict.Missed, _ => Verdict.NotTold }))];

    /// <summary>m as asked, x not, ? not measured.</summary>
    [Theory]
    [InlineData("", 1, null)]
    [InlineData("m", 1, true)]
    [InlineData("x", 1, false)]
    [InlineData("??", 0.5, null)]
    [InlineData("mmmx", 0.75, true)]
    [InlineData("mmxx", 0.75, false)]
    [InlineData("mm?x", 0.75, null)]
    [InlineData("mm??", 0.75, null)]
    [InlineData("mmm?", 0.75, true)]
    [InlineData("m?xx", 0.75, false)]
    [InlineData("m?", 1, null)]
    [InlineData("x?", 1, false)]
    [InlineData("xxx?", 0.25, null)]
    public void Enough_steps_or_too_few_or_it_hangs_on_what_was_not_measured(string each, double share, bool? asAsked) =>
        Assert.Equal(asAsked, StepOutcome.AsAsked(Steps(each), share));

    /// <summary>0.07 times 100 is a hair over 7 in a double.</summary>
    [Fact]
    public void Seven_of_a_hundred_are_seven_hundredths()
    {
        StepOutcome[] steps = Steps(new string('m', 7) + new string('x', 93));
        Assert.True(StepOutcome.AsAsked(steps, 0.07));
        Assert.False(StepOutcome.AsAsked(steps, 0.08));
        Finding enough = StepOutcome.Enough(steps, 0.07);
        Assert.Equal(("", "steps", (VoiceRole?)null, Verdict.Met, Fault.None, 7.0, 7.0, "", "7 of 100 steps were as asked; 7 are wanted."),
            (enough.StepId, enough.Criterion, enough.Role, enough.Verdict, enough.Fault, enough.Value, enough.Limit, enough.Unit, enough.Text));
        Assert.Equal("2 of 5 steps were as asked; 2 are wanted.", StepOutcome.Enough(Steps("mm?xx"), 0.3).Text);
    }

    [Fact]
    public void The_narrowest_grade_of_all_steps_is_reached()
    {
        StepOutcome With(params Grade?[] reached) => new(Octave(sungHz: 150), reached.Select(grade => Told(Verdict.Met, reached: grade)).Append(Told(Verdict.NotTold, reached: null)));
        Assert.Equal(Grade.III, StepOutcome.Reached([With(Grade.III, Grade.III), With(Grade.III)]));
        Assert.Equal(Grade.II, StepOutcome.Reached([With(Grade.III, Grade.II), With(Grade.III)]));
        Assert.Equal(Grade.I, StepOutcome.Reached([With(Grade.III), With(Grade.II, Grade.I)]));
        Assert.Null(StepOutcome.Reached([With(Grade.III), With(Grade.III, null)]));
    }
}
