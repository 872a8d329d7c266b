using BrassVox.Audio;
using Xunit;
using static BrassVox.Tests.App.Tui.StandTests;

namespace BrassVox.Tests.App.Tui;

/// <summary>What stands on the screens in words: messages, troubles, what lies ahead; none covers another.</summary>
public sealed class StandWordsTests
{
    [Fact]
    public void Takes_without_a_take_says_so_and_offers_to_leave()
    {
        using StandRig rig = At("5");
        SpinWait.SpinUntil(() => !rig.Run(0.04).Screen().Contains("Reading the takes.", StringComparison.Ordinal), TimeSpan.FromSeconds(20));
        string[] rows = rig.Screen().Split('\n');
        Assert.Contains(rows, row => row.TrimEnd() == "   Play along keeps takes here; nothing leaves this machine.");
        Assert.Contains(rows, row => row.TrimEnd() == " ▸ leave");
    }

    [Theory]
    [InlineData("1 c c Right Right")]
    [InlineData("1 c c Right Right p Right Right")]
    public void The_tuning_stands_in_the_header_of_Explore_however_long_the_pair(string way)
    {
        using StandRig rig = At(way);
        Assert.Contains("equal A4 440", rig.Screen().Split('\n')[0], StringComparison.Ordinal);
    }

    [Fact]
    public void News_of_the_sound_waits_until_the_answer_to_a_key_can_have_been_read()
    {
        using StandRig rig = new(noColour: true);
        rig.Press("t");
        rig.Audio.Output!.End(LineEnd.DeviceLost, "Hand line was pulled out.");
        rig.Run(2.5);
        Assert.Contains("there is one theme, none", rig.Screen(), StringComparison.Ordinal);
        rig.Run(1);
        Assert.Contains("Hand line was pulled out.", rig.Screen(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(25)]
    [InlineData(45)]
    public void A_long_message_covers_neither_of_two_troubles_on_Start(int words)
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-troubles-").FullName;
        File.WriteAllText(Path.Combine(folder, "stand.json"), "{ nothing");
        File.WriteAllText(Path.Combine(folder, "keys.json"), "{ \"sound\": 1 }");
        using var rig = new StandRig(dataFolder: folder);
        rig.Stand.Say(string.Join(' ', Enumerable.Repeat("news", words)));
        string[] rows = rig.Screen().Split('\n');
        Assert.Equal(2, rows.Count(row => row.StartsWith(" TROUBLE", StringComparison.Ordinal)));
        Assert.Contains(rows, row => row.StartsWith(" TROUBLE    keys.json, line 1", StringComparison.Ordinal));
        Assert.Equal(words, rows.Sum(row => row.Split(' ').Count(word => word == "news")));
    }

    [Fact]
    public void A_wide_window_shows_what_lies_ahead_today_and_the_pair_as_it_was_left()
    {
        using StandRig rig = At("");
        Assert.True(SpinWait.SpinUntil(() => rig.Screen(200, 60).Contains("TODAY", StringComparison.Ordinal), TimeSpan.FromSeconds(10)));
        Assert.Contains("AS YOU LEFT IT  Bb1 played, F2 sung", rig.Screen(200, 60), StringComparison.Ordinal);
        Assert.DoesNotContain("TODAY", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_device_is_told_with_what_can_be_done_in_the_room_and_covers_no_care()
    {
        const string Missing = "no playback device could be opened: \"System default\" was not found. Plug a device in, or choose another device.";
        using StandRig rig = At("8");
        rig.Stand.Say(Missing);
        string screen = Joined(rig);
        Assert.Contains("or choose another: Left, Right on its line.", screen, StringComparison.Ordinal);
        Assert.Contains("Headphones keep the drone out of the microphone. One ear stays free.", screen, StringComparison.Ordinal);
        rig.Press("Escape");
        rig.Stand.Say(Missing);
        Assert.Contains("or choose another in Set-up.", Joined(rig), StringComparison.Ordinal);
    }
}
