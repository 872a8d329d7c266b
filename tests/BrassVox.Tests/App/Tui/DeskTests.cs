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

    /// <summary>A machine that comes late with the sound gets a longer buffer in the next silence, and not before; what is asked for meanwhile sounds.</summary>
    [Fact]
    public void Late_blocks_lengthen_the_buffer_in_the_next_silence()
    {
        using var rig = new StandRig();
        HandLine before = rig.Audio.Output!;
        rig.Desk.Sound(PitchPath.Constant(116.54), PitchPath.Constant(174.61), 0.5);
        rig.Run(0.3);
        before.DropoutCount = 3;
        rig.Run(0.3).Settle();
        Assert.Same(before, rig.Audio.Output);
        rig.Desk.Stop();
        rig.Run(0.3);
        rig.Desk.Sound();
        rig.Settle();
        HandLine after = rig.Audio.Output!;
        Assert.NotSame(before, after);
        Assert.Equal((4, 8), (before.Granted.Periods, after.Granted.Periods));
        Assert.True(before.Completion.IsCompleted && after.IsRunning && rig.Desk.HasDevice);
        Assert.Contains("kept the sound waiting 3 times: its buffer lasts 43 ms", rig.Screen(), StringComparison.Ordinal);
        rig.Run(0.3);
        Assert.True(rig.Heard.Max(Math.Abs) > 0.001, "what was asked for meanwhile is silent");
    }

    /// <summary>Another engine asked for while the line is opened anew is the one that sounds.</summary>
    [Fact]
    public void An_engine_asked_for_while_the_buffer_grows_is_the_one_that_sounds()
    {
        using var rig = new StandRig();
        IPairEngine before = rig.Desk.Engine!;
        rig.Audio.Output!.DropoutCount = 3;
        rig.Run(0.04);
        IPairEngine? made = null;
        rig.Desk.Use(() => made = rig.Stand.Parts.CreateEngine(rig.Stand.Profile));
        rig.Settle();
        Assert.Equal(8, rig.Audio.Output!.Granted.Periods);
        Assert.NotSame(before, rig.Desk.Engine);
        Assert.Same(made, rig.Desk.Engine);
        rig.Desk.Sound(PitchPath.Constant(116.54), PitchPath.Constant(174.61), 0.5);
        rig.Run(0.3);
        Assert.True(rig.Heard.Max(Math.Abs) > 0.001, "the new engine is silent");
    }

    /// <summary>Two late blocks in ten seconds are borne, the buffer grows to 85 ms and no further, and a take at hand keeps the line it has.</summary>
    [Fact]
    public void The_buffer_grows_for_a_reason_to_an_end_and_never_within_a_take()
    {
        using var rig = new StandRig();
        HandLine first = rig.Audio.Output!;
        first.DropoutCount = 2;
        rig.Run(11).Settle();
        first.DropoutCount = 4;
        rig.Run(0.3).Settle();
        Assert.Same(first, rig.Audio.Output);
        rig.Desk.Tap(_ => { });
        first.DropoutCount = 9;
        rig.Run(0.3).Settle();
        Assert.Same(first, rig.Audio.Output);
        rig.Desk.Tap(null);
        for (int i = 0; i < 4; i++)
        {
            rig.Run(0.1).Settle();
            rig.Audio.Output!.DropoutCount = 5;
        }

        Assert.Equal(16, rig.Audio.Output!.Granted.Periods);
        HandLine longest = rig.Audio.Output!;
        rig.Run(11).Settle();
        Assert.Same(longest, rig.Audio.Output);
    }

    /// <summary>A device that is gone when it should be opened anew is looked for every second, as any that is lost.</summary>
    [Fact]
    public void A_device_gone_while_its_buffer_grows_is_taken_again_when_it_comes_back()
    {
        using var rig = new StandRig();
        rig.Audio.Output!.DropoutCount = 3;
        rig.Audio.HasOutput = false;
        rig.Run(0.1).Settle();
        Assert.False(rig.Desk.HasDevice);
        rig.Audio.HasOutput = true;
        for (int i = 0; i < 2; i++)
        {
            rig.Run(1.1).Settle();
        }

        Assert.True(rig.Desk.HasDevice);
        Assert.Equal(8, rig.Audio.Output!.Granted.Periods);
    }
}
