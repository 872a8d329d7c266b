using BrassVox.App.Tui.Rooms;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>A section on the screen.</summary>
public sealed class SectionRoomTests
{
    [Fact]
    public void A_section_is_named_told_and_heard()
    {
        using StandRig rig = StandTests.At("2 n");
        Assert.IsType<SectionRoom>(rig.Stand.Top);
        rig.Press("n", "B", "b", "2", " ", "F", "3", "+", "6", "Enter");

        // Bb2 116.54 Hz, F3 174.61 Hz raised by 6 c; 3 times one and twice the other lie 0.8 apart (exact arithmetic, A4 = 440).
        double beats = Math.Abs((3 * 116.5409) - (2 * 174.6141 * Math.Pow(2, 6 / 1200.0)));
        Assert.Contains($"{beats:0.0} /s", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("2 players", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter");
        Assert.True(SpinWait.SpinUntil(
            () =>
            {
                rig.Run(0.2);
                return rig.Heard.Any(sample => Math.Abs(sample) > 0.001);
            },
            TimeSpan.FromSeconds(20)));
        rig.Press(" ").Run(0.2).Run(0.2);
        Assert.All(rig.Heard, sample => Assert.InRange(Math.Abs(sample), 0, 1e-4));
    }

    [Fact]
    public void What_is_no_tone_is_refused_where_it_stands()
    {
        using StandRig rig = StandTests.At("2 n");
        rig.Press("n", "B", "b", "2", " ", "X", "Enter");
        Assert.Contains("\"X\" is not a note", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_click_has_its_own_channel_when_set_up_says_so()
    {
        using StandRig rig = StandTests.At("");
        rig.Memory.Change(now => now with { ClickChannel = 2 });
        rig.Desk.Click(block => block.Fill(0.5f), rig.Memory.Now.ClickChannel);
        rig.Run(0.1);
        Assert.All(rig.Heard, sample => Assert.InRange(Math.Abs(sample), 0, 1e-4));
        rig.Desk.Click(block => block.Fill(0.5f));
        rig.Run(0.1);
        Assert.Contains(rig.Heard, sample => Math.Abs(sample - 0.5f) < 1e-3);
    }
}
