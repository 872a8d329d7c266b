using BrassVox.Synthesis;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>No control clicks, however far it jumps.</summary>
public sealed class ClickTests
{
    public static TheoryData<string> Controls() =>
        [.. TakenSound.Pair("tuba", "bass", 58, 87).Parameters.Select(parameter => parameter.Spec.Id)];

    // A step of the wave or of its slope shows as a second difference far above that of the wave itself. The slowest ramp here takes 30 ms: through it the wave's own curvature is at most that of the stronger of the two states it joins, so twice that is the bound.
    [Theory]
    [MemberData(nameof(Controls))]
    public void A_jump_of_a_control_leaves_the_curve_smooth(string id)
    {
        FlowPair pair = TakenSound.Pair("tuba", "bass", 58.27, 87.31, ("couplingDepth", 0.5), ("levelDb", -6));
        Parameter control = TakenSound.Parameter(pair, id);
        control.Target = control.Spec.Minimum;
        pair.Take(0.6);
        double low = SecondDifference(pair.Take(0.4));
        control.Target = control.Spec.Maximum;
        double rising = SecondDifference(pair.Take(0.4));
        pair.Take(0.4);
        double high = SecondDifference(pair.Take(0.4));
        control.Target = control.Spec.Minimum;
        double falling = SecondDifference(pair.Take(0.4));
        double bound = 2 * Math.Max(low, high);
        Assert.True(rising < bound && falling < bound, $"steady {low:g3} and {high:g3}, rising {rising:g3}, falling {falling:g3}");
    }

    [Fact]
    public void Start_stop_tacet_and_mutes_leave_the_curve_smooth()
    {
        FlowPair pair = TakenSound.Pair("tuba", "bass", 58.27, 87.31, ("couplingDepth", 0.5));
        double onset = SecondDifference(pair.Take(0.3));
        double steady = SecondDifference(pair.Take(0.4));
        pair.TryPost(PairEvent.Gain(0, -80));
        pair.TryPost(PairEvent.Gain(3, -80));
        double mute = SecondDifference(pair.Take(0.2));
        pair.TryPost(PairEvent.Gain(0, 0));
        pair.Take(0.2);
        pair.TryPost(PairEvent.Stop());
        double stop = SecondDifference(pair.Take(0.2));
        pair.TryPost(PairEvent.Start());
        pair.Take(0.4);
        pair.TryPost(PairEvent.Tacet());
        double tacet = SecondDifference(pair.Take(0.1));
        Assert.All([onset, mute, stop, tacet], change => Assert.True(change < 1.5 * steady, $"{change} against {steady}"));
    }

    private static double SecondDifference(float[] sound)
    {
        double highest = 0;
        for (int i = 2; i < sound.Length; i++)
        {
            highest = Math.Max(highest, Math.Abs(sound[i] - (2.0 * sound[i - 1]) + sound[i - 2]));
        }

        return highest;
    }
}
