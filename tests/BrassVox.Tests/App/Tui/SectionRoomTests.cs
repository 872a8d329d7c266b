using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Section;
using BrassVox.Theory;
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

    /// <summary>A just fifth from player 1 leaves nothing to still; a meantone one is narrow by a quarter of the syntonic comma, 21.5 / 4 c (Barbour, Tuning and Temperament, 1951).</summary>
    [Fact]
    public void The_tuning_it_is_entered_in_changes_what_has_to_move()
    {
        using StandRig rig = StandTests.At("2 n");
        rig.Press("n", "B", "b", "2", " ", "F", "3", "Enter");
        Assert.Contains("equal", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("2.0 c, to", rig.Screen(), StringComparison.Ordinal);
        rig.Press("e");
        Assert.Contains("just", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.Contains("Nobody has to move.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("e", "e");
        Assert.Contains("meantone", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.Contains("5.4 c, to", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_sound_device_no_trial_is_counted()
    {
        using var rig = new StandRig(hasOutput: false);
        rig.Press("2", "n", "Down", "Enter");
        Assert.Contains("This set is not counted", rig.Screen(), StringComparison.Ordinal);
        Assert.True(SpinWait.SpinUntil(() => rig.Press("Enter").Run(0.04).Screen().Contains("player 1", StringComparison.Ordinal), TimeSpan.FromSeconds(20)));
        Assert.Contains("No sound device: nothing can be heard.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("1");
        Assert.DoesNotContain("Guessing gives", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("This set is not counted", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_tall_window_draws_where_the_partials_of_every_two_meet()
    {
        using StandRig rig = StandTests.At("2 n");
        Assert.DoesNotContain("meet", rig.Screen(), StringComparison.Ordinal);
        Assert.Equal(3, rig.Screen(80, 60).Split('\n').Count(row => row.StartsWith("meet", StringComparison.Ordinal)));
    }

    [Fact]
    public void Trials_sound_one_who_is_off_and_count_what_was_told()
    {
        using StandRig rig = StandTests.At("2 n");
        rig.Press("Down", "Enter");
        Assert.IsType<SectionTrialRoom>(rig.Stand.Top);
        rig.Press("2");
        Assert.DoesNotContain("Yes:", rig.Screen(), StringComparison.Ordinal);
        for (int trial = 1; trial <= 8; trial++)
        {
            Assert.Contains($"trial {trial} of 8", rig.Screen(), StringComparison.Ordinal);
            rig.Press("Enter");
            rig.Press("1");
            Assert.Matches("Yes: player 1|No: it was player [23]", rig.Screen());
            rig.Press("Enter");
        }

        Assert.Contains("The set is done.", rig.Screen(), StringComparison.Ordinal);
        Assert.Matches("[0-8] of 8 told; of all such trials likely", rig.Screen());
        rig.Press(",");
        Assert.Contains("10 c off", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("trial 1 of 8", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter");
        Assert.True(SpinWait.SpinUntil(
            () =>
            {
                rig.Run(0.2);
                return rig.Heard.Any(sample => Math.Abs(sample) > 0.001);
            },
            TimeSpan.FromSeconds(20)));
        rig.Press("Escape").Run(0.2).Run(0.2);
        Assert.All(rig.Heard, sample => Assert.InRange(Math.Abs(sample), 0, 1e-4));
    }

    [Fact]
    public void Who_is_off_follows_from_the_clock_of_the_stand_alone()
    {
        string[] told = [.. new[] { 7L, 7, 8, 9, 10 }.Select(now =>
        {
            using var rig = new StandRig(time: new StoppedTime(now));
            List<string> truths = [];
            rig.Press("2", "n", "Down", "Enter");
            for (int i = 0; i < 4; i++)
            {
                Assert.True(SpinWait.SpinUntil(
                    () => rig.Press("Enter").Run(0.04).Stand.Top.Choices[0].Label.StartsWith("player", StringComparison.Ordinal), TimeSpan.FromSeconds(20)));
                rig.Press("1");
                truths.Add(rig.Stand.Top.Findings[0]);
                rig.Press("Enter");
            }

            return string.Join(' ', truths);
        })];
        Assert.Equal(told[0], told[1]);
        Assert.True(told.Distinct().Count() > 1, told[0]);
    }

    private sealed class StoppedTime(long now) : TimeProvider
    {
        public override long GetTimestamp() => now;
    }

    [Theory]
    [InlineData("Bb1 F3 D4 G4+20 B5", NoteNaming.English)]
    [InlineData("Bb1 A3 D4 G4+20 Bb6", NoteNaming.Solfege)]
    public void No_row_of_the_table_is_wider_than_the_least_window(string notes, NoteNaming naming)
    {
        SectionReport report = SectionReport.Of([.. notes.Split(' ').Select(note => BrassVox.App.Cli.SectionCommand.Read(note)!.Value)], Tuning.Equal, 440);
        string[] lines = BrassVox.App.Cli.SectionWords.Show(report, 440, naming).Split('\n');
        Assert.All(lines, line => Assert.InRange(line.Length, 0, MusicStand.LeastWidth));
        Assert.Contains(lines, line => line.StartsWith("  1 + 2", StringComparison.Ordinal));
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
