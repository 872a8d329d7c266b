using BrassVox.App.Tui.Sound;
using BrassVox.Audio;
using BrassVox.Synthesis;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>The desk on lines that a test moves.</summary>
public sealed class DeskTests
{
    private const double SilentAmplitude = 1e-4; // -80 dBFS

    [Fact]
    public void The_line_before_is_silent_once_another_device_has_opened()
    {
        using var rig = new StandRig();
        HandLine before = rig.Audio.Output!;
        Desk desk = rig.Desk;
        desk.Use(() => rig.Stand.Parts.CreateEngine(rig.Stand.Profile), "other");
        rig.Settle();
        HandLine after = rig.Audio.Output!;
        Assert.NotSame(before, after);
        desk.Sound(PitchPath.Constant(116.54), PitchPath.Constant(174.61), 0.5);
        double heardBefore = 0;
        double heardAfter = 0;
        for (int i = 0; i < 40; i++)
        {
            heardBefore = Math.Max(heardBefore, before.Pull().Max(Math.Abs));
            heardAfter = Math.Max(heardAfter, after.Pull().Max(Math.Abs));
        }

        Assert.InRange(heardBefore, 0, SilentAmplitude);
        Assert.True(heardAfter > 0.001, "the new line is silent");
    }

    [Fact]
    public void A_device_asked_for_while_another_opens_is_opened_next()
    {
        using var rig = new StandRig();
        IPairEngine Create() => rig.Stand.Parts.CreateEngine(rig.Stand.Profile);
        rig.Desk.Use(Create, "first");
        rig.Desk.Use(Create, "second");
        rig.Settle();
        rig.Settle();
        Assert.Equal("second", rig.Audio.LastOutputId);
    }

    [Fact]
    public void A_device_that_stays_away_for_long_is_taken_again_when_it_comes_back()
    {
        using var rig = new StandRig();
        rig.Audio.HasOutput = false;
        rig.Audio.Output!.End(LineEnd.DeviceLost, "gone");
        for (int i = 0; i < 3; i++)
        {
            rig.Run(1.1).Settle();
        }

        Assert.False(rig.Desk.HasDevice);
        HandLine silent = rig.Audio.Output!;
        rig.Audio.HasOutput = true;
        for (int i = 0; i < 3; i++)
        {
            rig.Run(1.1).Settle();
        }

        Assert.True(rig.Desk.HasDevice);
        Assert.NotSame(silent, rig.Audio.Output);
        Assert.True(rig.Audio.Output!.IsRunning);
    }

    [Fact]
    public void Set_up_opens_a_device_that_was_plugged_in_after_the_beginning_and_says_when_there_is_none()
    {
        using var rig = new StandRig(hasOutput: false);
        rig.Press("8").Run(0.04);
        rig.Press("Enter").Settle();
        Assert.False(rig.Desk.HasDevice);
        Assert.Contains("no playback device could be opened", rig.Screen(), StringComparison.Ordinal);
        rig.Audio.HasOutput = true;
        rig.Press("Enter").Settle();
        Assert.True(rig.Desk.HasDevice);
        Assert.Contains("Sound is back", rig.Screen(), StringComparison.Ordinal);
    }
}
