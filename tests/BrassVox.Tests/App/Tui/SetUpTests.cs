using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>What Set-up finds out, keeps, and what other rooms make of it.</summary>
public sealed class SetUpTests
{
    [Fact]
    public void The_speaker_test_sounds_plain_tones_and_keeps_the_lowest_that_was_heard()
    {
        using StandRig rig = StandTests.At("8 2 Enter Enter");
        rig.Run(0.5);
        Assert.IsType<SpeakerTestRoom>(rig.Stand.Top);
        // Bb2 in equal temperament at A4 = 440 (exact), at the level shown, -24 dB: amplitude 0.063.
        Assert.InRange(rig.Heard.Max(), 0.058, 0.066);
        Assert.Equal(116.54, PerSecond(rig.Heard), 3.0);
        rig.Press("2").Run(0.5);
        Assert.Equal(87.31, PerSecond(rig.Heard), 3.0);
        rig.Press("3", "4", "4", "4", "4", "4");
        Assert.Contains("It carries tones from 87 Hz up", rig.Screen(), StringComparison.Ordinal);
        rig.Run(0.2).Run(0.1);
        Assert.All(rig.Heard, sample => Assert.InRange(Math.Abs(sample), 0, 1e-4));
        rig.Press("1");
        Assert.True(rig.Memory.Now.OctaveUp);
        using var later = new StandRig(dataFolder: rig.Folder);
        Assert.Equal(87.31, later.Memory.Now.SpeakerLowestHz!.Value, 0.01);
    }

    [Fact]
    public void A_speaker_test_that_is_left_half_way_goes_on_where_it_was_in_a_later_run_too()
    {
        using StandRig rig = StandTests.At("8 2 Enter Enter 2 3 Escape");
        Assert.Contains("2 of 7 answered", rig.Screen(), StringComparison.Ordinal);
        using var later = new StandRig(dataFolder: rig.Folder);
        later.Press("8", "2", "Enter");
        Assert.Contains("2 of 7 are kept from before: it goes on at C2.", later.Screen(), StringComparison.Ordinal);
        string[] rows = later.Screen().Split('\n');
        Assert.Matches("Hz +heard *$", rows[5]);
        Assert.Matches("Hz +faint *$", rows[6]);
        later.Press("z", "1", "2", "4", "4", "4", "4", "4");
        Assert.Contains("It carries tones from 87 Hz up", later.Screen(), StringComparison.Ordinal);
        later.Press("Escape", "Enter");
        Assert.DoesNotContain("kept from before", later.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_can_be_said_of_a_tone_that_has_not_sounded()
    {
        using StandRig rig = StandTests.At("8 2 Enter 2");
        Assert.Contains("Play it first", rig.Screen(), StringComparison.Ordinal);
        Assert.Equal("", rig.Memory.Now.SpeakerAnswers);
        rig.Press("1", "2", "3", "z");
        Assert.Equal("h", rig.Memory.Now.SpeakerAnswers);
        rig.Press("4");
        Assert.Equal("h", rig.Memory.Now.SpeakerAnswers);
        rig.Press("r", "4");
        Assert.Equal("hn", rig.Memory.Now.SpeakerAnswers);
    }

    [Fact]
    public void Without_a_device_the_speaker_test_takes_no_answer()
    {
        using var rig = new StandRig(hasOutput: false);
        rig.Press("8", "2", "Enter", "1", "2", "4");
        Assert.Contains("No sound device", rig.Screen(), StringComparison.Ordinal);
        Assert.Equal("", rig.Memory.Now.SpeakerAnswers);
    }

    /// <summary>The delay is that of both devices, the processing that of the microphone.</summary>
    [Theory]
    [InlineData("1", "steady")]
    [InlineData("3", null)]
    public void Another_device_has_a_delay_and_a_processing_of_its_own(string line, string? input)
    {
        using StandRig rig = StandTests.At("");
        rig.Memory.Change(now => now with { DelayMs = 31.5, InputFound = "steady" });
        rig.Press("8");
        Until(rig, "1 to choose from");
        rig.Press(line, "Right").Run(0.04);
        Assert.Equal((null, input), (rig.Memory.Now.DelayMs, rig.Memory.Now.InputFound));
        Assert.Contains("not measured: Enter plays three short tones", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Answers_of_one_loudspeaker_are_not_taken_for_those_of_another()
    {
        using StandRig rig = StandTests.At("8 2 Enter Enter 2 3 Escape");
        Until(rig, "1 to choose from");
        rig.Press("1", "Right", "2", "Enter");
        Assert.Contains("SPEAKER", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.DoesNotContain("kept from before", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_one_loudspeaker_carried_is_not_said_of_another()
    {
        using StandRig rig = StandTests.At("");
        rig.Memory.Change(now => now with { SpeakerLowestHz = 65.4, OctaveUp = true, SpeakerAnswers = "h" });
        rig.Press("8");
        Until(rig, "1 to choose from");
        rig.Press("1", "Right").Run(0.04);
        Assert.Equal(("hand", (double?)null, false, ""), (rig.Memory.Now.OutputDevice, rig.Memory.Now.SpeakerLowestHz, rig.Memory.Now.OctaveUp, rig.Memory.Now.SpeakerAnswers));
        Assert.Contains("not tested: Enter plays one after the other", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("The low tones were those of the other: line 2 tests this one.", StandTests.Joined(rig), StringComparison.Ordinal);
    }

    /// <summary>Turning through instruments keeps all else of a player; another voice begins from its usual range.</summary>
    [Fact]
    public void Another_instrument_keeps_the_range_and_what_else_was_set()
    {
        using StandRig rig = StandTests.At("");
        PlayerProfile mine = rig.Memory.Now.Profile with { LowestSung = Pitch.Parse("A2"), HighestSung = Pitch.Parse("E4"), TuningName = "pythagorean", Aim = Grade.III, RegisterChange = Pitch.Parse("D4"), A4Hz = 442 };
        var answers = new Answers(rig.Stand);
        rig.Memory.Change(now => now with { Profile = mine });
        answers.Change(0, 1);
        Assert.Equal(mine with { Instrument = rig.Memory.Now.Profile.Instrument }, rig.Memory.Now.Profile);
        Assert.NotEqual(mine.Instrument, rig.Memory.Now.Profile.Instrument);
        answers.Change(1, 1);
        PlayerProfile other = rig.Memory.Now.Profile;
        Assert.Equal(("pythagorean", Grade.III, 442.0, (Pitch?)null), (other.TuningName, other.Aim, other.A4Hz, other.RegisterChange));
        Assert.Equal(PlayerProfile.Usual(other.Instrument, other.Voice).LowestSung, other.LowestSung);
    }

    [Fact]
    public void Where_there_is_no_other_loudspeaker_the_answers_stay()
    {
        using var rig = new StandRig(hasOutput: false);
        rig.Memory.Change(now => now with { OutputDevice = "unplugged", SpeakerLowestHz = 65.4, OctaveUp = true, SpeakerAnswers = "hf" });
        rig.Press("8");
        Until(rig, "no output device found");
        rig.Press("1", "Right").Run(0.04);
        Assert.Contains("No other device to choose.", rig.Screen(), StringComparison.Ordinal);
        Assert.Equal(("unplugged", (double?)65.4, true, "hf"), (rig.Memory.Now.OutputDevice, rig.Memory.Now.SpeakerLowestHz, rig.Memory.Now.OctaveUp, rig.Memory.Now.SpeakerAnswers));
    }

    [Fact]
    public void A_second_speaker_test_that_is_left_half_way_is_shown_beside_the_first()
    {
        using StandRig rig = StandTests.At("8");
        rig.Memory.Change(now => now with { SpeakerLowestHz = 87.3 });
        rig.Press("2", "Enter", "Enter", "2", "2", "3", "Escape");
        Assert.Contains("3 of 7 answered: Enter goes on; before: from 87 Hz, as written", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter", "1", "4", "4", "4", "4", "z", "Escape");
        Assert.Contains("6 of 7 answered: Enter goes on; before: from 65 Hz, as written", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Space_silences_a_test_tone_within_50_ms()
    {
        using StandRig rig = StandTests.At("8 2 Enter Enter");
        rig.Run(0.4).Press(" ").Run(0.2);
        Assert.All(rig.Heard.Skip((int)(0.05 * HandAudio.RateHz)), sample => Assert.InRange(Math.Abs(sample), 0, 1e-4));
        Assert.Contains("tacet", rig.Canvas().Row(0), StringComparison.Ordinal);
    }

    [Fact]
    public void Explore_and_stage_honour_the_octave_up_and_say_so()
    {
        using StandRig rig = StandTests.At("");
        rig.Memory.Change(now => now with { SpeakerLowestHz = 65.4, OctaveUp = true });
        rig.Stand.UseProfile();
        rig.Press("1", "Enter").Run(1.0);
        Assert.Equal(1, rig.Desk.OctavesUp);
        Assert.Contains("8va", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.Contains("Bb1 played", rig.Canvas().Row(0), StringComparison.Ordinal);
        // Bb1 is 58.27 Hz: what sounds is 116.54; what is told is as written.
        Assert.Equal(58.27, rig.Desk.Engine!.Read(0).FrequencyHz, 0.05);
        rig.Press("Escape", "7", "2").Run(0.5);
        Assert.Equal(0, rig.Desk.OctavesUp);
        Assert.DoesNotContain("8va", rig.Canvas().Row(0), StringComparison.Ordinal);
    }

    [Fact]
    public void The_click_row_goes_through_the_channels_says_what_this_output_has_and_is_remembered()
    {
        using StandRig rig = StandTests.At("8");
        int row = rig.Stand.Top.Choices.ToList().FindIndex(choice => choice.Label == "click");
        while (rig.Stand.Top.MarkedIndex != row)
        {
            rig.Press("Down");
        }

        Assert.Contains("click", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("[mixed in]", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Right", "Right");
        rig.Settle();
        Assert.Equal(2, rig.Memory.Now.ClickChannel);
        Assert.Contains("[channel 2] for itself", rig.Screen(), StringComparison.Ordinal);

        // The output has two channels; a third is asked for and is not there.
        rig.Press("Right");
        rig.Settle();
        Assert.Contains("[channel 3] this output has 2: mixed in", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Left");
        rig.Settle();
        rig.Press("Escape");
        rig.Memory.Save();
        using var later = new StandRig(dataFolder: rig.Folder);
        Assert.Equal(2, later.Memory.Now.ClickChannel);
        later.Memory.Change(now => now with { ClickChannel = 0 });
    }

    [Theory]
    [InlineData(null, "where small speakers end: Set-up, line 2")]
    [InlineData(65.4, "too low for the speaker")]
    [InlineData(40.0, null)]
    public void What_the_speaker_does_not_carry_is_marked_low_in_a_passage(double? lowestHz, string? said)
    {
        using var rig = new StandRig();
        rig.Memory.Change(now => now with { SpeakerLowestHz = lowestHz });
        rig.Press("4");

        // Bb2 and F3 make Bb1, 58 Hz.
        string joined = string.Join(' ', rig.Screen().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Equal(said is not null, joined.Contains(said ?? "speaker", StringComparison.Ordinal));
        Assert.Equal(said is not null, rig.Canvas().Row(8).StartsWith(" care      low", StringComparison.Ordinal));
        Assert.Contains("They make Bb1, 58 Hz.", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_pedal_that_sends_arrows_works_as_page_keys()
    {
        using StandRig rig = StandTests.At("8 6 Enter Escape 1");
        rig.Press("Right").Run(0.3);
        Assert.True(rig.Desk.IsSounding);
        rig.Press("Left").Run(0.2);
        Assert.False(rig.Desk.IsSounding);
    }

    [Fact]
    public void What_was_found_out_is_remembered()
    {
        using StandRig rig = StandTests.At("");
        rig.Memory.Change(now => now with { DelayMs = 26.6, InputFound = "steady to 0.3 dB", PlainSigns = true, SpeakerLowestHz = 65 });
        rig.Memory.Save();
        using var later = new StandRig(dataFolder: rig.Folder);
        later.Press("8");
        string screen = later.Screen();
        Assert.Contains("26.6 ms there and back; good", screen, StringComparison.Ordinal);
        Assert.Contains("steady to 0.3 dB", screen, StringComparison.Ordinal);
        Assert.Contains("carried from 65 Hz", screen, StringComparison.Ordinal);
        Assert.Contains("[plain]", screen, StringComparison.Ordinal);
    }

    private static void Until(StandRig rig, string text) => Assert.True(
        SpinWait.SpinUntil(() => rig.Run(0.04).Screen().Contains(text, StringComparison.Ordinal), TimeSpan.FromSeconds(20)), $"\"{text}\" never came:\n{rig.Screen()}");

    /// <summary>Rising zero crossings a second.</summary>
    private static double PerSecond(List<float> samples) =>
        samples.Zip(samples.Skip(1), (a, b) => a < 0 && b >= 0 ? 1 : 0).Sum() * (double)HandAudio.RateHz / samples.Count;

    /// <summary>Where the arrows are the pedal, no last row says that they do anything else: letters of the room stand there, or Tab.</summary>
    [Fact]
    public void With_an_arrow_pedal_the_last_row_names_other_keys()
    {
        using StandRig rig = StandTests.At("1");
        string Last() => rig.Canvas().Row(rig.Canvas().Height - 1);
        Assert.Contains("Left Right 5 c", Last(), StringComparison.Ordinal);
        rig.Memory.Change(now => now with { ArrowPedal = true });
        Assert.Contains("j l 5 c", Last(), StringComparison.Ordinal);
        Assert.DoesNotContain("Left Right", Last(), StringComparison.Ordinal);
        rig.Press("Escape", "8");
        Assert.Contains("Tab line", Last(), StringComparison.Ordinal);
        Assert.DoesNotContain("Up Down", Last(), StringComparison.Ordinal);
        Assert.EndsWith("h keys", Last().TrimEnd(), StringComparison.Ordinal);
    }
}
