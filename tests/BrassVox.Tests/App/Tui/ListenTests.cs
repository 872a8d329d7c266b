using System.Text.RegularExpressions;
using BrassVox.Practice.Log;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>A listening exercise by keys alone.</summary>
public sealed class ListenTests
{
    [Fact]
    public void Beats_are_tapped_answered_and_compared_with_the_truth()
    {
        using StandRig rig = StandTests.At("2 4 Enter Enter");
        rig.Run(0.5);
        for (int i = 0; i < 8; i++)
        {
            rig.Press("Enter").Run(0.52);
        }

        Assert.Contains("▲", rig.Screen(), StringComparison.Ordinal);
        rig.Run(1.5);
        Assert.Contains("/s (Enter)", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter");
        string screen = rig.Screen();
        Assert.Contains("You: 1.9", screen, StringComparison.Ordinal);
        Assert.Contains("It was:", screen, StringComparison.Ordinal);
        Assert.Contains("it swelled", screen, StringComparison.Ordinal);
        Assert.Contains("in per cent, after 1 trial", screen, StringComparison.Ordinal);
    }

    /// <summary>Who taps along taps once more when the sound is just over: that is not the answer.</summary>
    [Fact]
    public void A_tap_right_after_the_sound_is_no_answer()
    {
        using StandRig rig = StandTests.At("2 4 Enter Enter");
        rig.Run(0.5).Press("Enter").Run(0.5).Press("Enter");
        for (int i = 0; i < 400 && !rig.Screen().Contains("/s (Enter)", StringComparison.Ordinal); i++)
        {
            rig.Run(0.02);
        }

        rig.Press("Enter");
        Assert.Contains("came after the sound", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain("You:", rig.Screen(), StringComparison.Ordinal);
        rig.Run(0.7).Press("Enter");
        Assert.Contains("You: ", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_trial_that_moves_the_voice_names_the_keys_that_move_it()
    {
        using StandRig rig = StandTests.At("2 6 Enter");
        Assert.DoesNotContain("Left Right S 5 c", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter").Run(0.4);
        Assert.EndsWith("Left Right S 5 c  , . 1 c  Space tacet  h keys", rig.Canvas(80, 24).Row(23), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_sound_device_nothing_is_counted_and_nothing_kept()
    {
        using var rig = new StandRig(hasOutput: false);
        rig.Press("2", "1", "Enter");
        Assert.Contains("Nothing of this set is counted or kept", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter").Run(0.04).Press("1").Run(0.04);
        Assert.Contains("It was:", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("Nothing of this set is counted or kept", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain("after 1 trial", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Escape");
        rig.Stand.Close(TimeSpan.FromSeconds(20));
        Assert.Empty(rig.Stand.Log.Listening(TakeFilter.All));
    }

    /// <summary>What was answered is kept once, however the set ends: left, begun anew, or the program told to end.</summary>
    [Theory]
    [InlineData(1, "Escape")]
    [InlineData(1, "Interrupt")]
    [InlineData(2, "Escape", "another set")]
    [InlineData(2, "Interrupt", "another set")]
    public void Each_set_that_was_answered_is_kept_however_it_ends(int sets, string ending, string? between = null)
    {
        using StandRig rig = StandTests.At("2 1 Enter");
        Answer(rig);
        if (between is not null)
        {
            for (int presses = 1; !Offers(rig, between); presses++)
            {
                Assert.True(presses < 40, rig.Screen());
                Answer(rig);
            }

            rig.Stand.Top.Choices.Single(choice => choice.Label == between).Do();
            rig.Run(0.04);
            Answer(rig);
        }

        rig.Press(ending);
        Assert.Empty(rig.Stand.Close(TimeSpan.FromSeconds(20)));
        Assert.Equal(sets, rig.Stand.Log.Listening(TakeFilter.All).Count);
    }

    // Enter begins the next trial, or ends the set where there is none.
    private static void Answer(StandRig rig)
    {
        rig.Press("Enter").Run(0.04);
        if (!Offers(rig, "another set"))
        {
            rig.Press("1").Run(0.04);
        }
    }

    private static bool Offers(StandRig rig, string label) => rig.Stand.Top.Choices.Any(choice => choice.Label == label);

    [Fact]
    public void A_large_window_tells_what_was_done_of_each_exercise_so_far()
    {
        using StandRig rig = StandTests.At("2");
        string exercise = rig.Stand.Parts.Exercises.Exercises.First(item => item.Number == 1).Id;
        rig.Stand.Log.Add(new ListeningEntry(DateTimeOffset.UtcNow, rig.Stand.PlayerName, exercise, 8, 6, 0.5, null));
        rig.Press("Escape", "2");
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Screen(200, 60).Contains("6 of 8 right", StringComparison.Ordinal), TimeSpan.FromSeconds(10)));
        Assert.Contains("not yet", rig.Screen(200, 60), StringComparison.Ordinal);
        rig.Press("Enter");
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Screen(80, 60).Contains("6 of 8 right; guessing gives 50 of 100", StringComparison.Ordinal), TimeSpan.FromSeconds(10)));
        Assert.DoesNotContain("6 of 8 right", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_heard_is_drawn_after_the_answer_and_not_before()
    {
        using StandRig rig = StandTests.At("2 1 Enter Enter");
        rig.Run(0.4);
        Assert.DoesNotContain("as it began", rig.Screen(80, 48), StringComparison.Ordinal);
        rig.Press("1").Run(0.04);
        Assert.Contains("as it began", rig.Screen(80, 48), StringComparison.Ordinal);
        Assert.DoesNotContain("as it began", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_list_longer_than_the_window_says_that_there_is_more()
    {
        using StandRig rig = StandTests.At("3");
        Assert.Contains(" more below ", rig.Screen(), StringComparison.Ordinal);
        rig.Press("1", "8");
        Assert.Contains(" more above and below ", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain(" more ", rig.Screen(80, 48), StringComparison.Ordinal);
    }

    [Fact]
    public void A_threshold_is_searched_for_where_there_is_one()
    {
        using StandRig rig = StandTests.At("2 1 Enter Down");
        Assert.Contains("find my threshold, 30 trials", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter");
        Assert.Contains("trial 1 of 30", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter").Run(8).Press("1");
        Assert.Contains("your threshold, after 1 trial", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Escape", "4", "Enter", "Down");
        Assert.DoesNotContain("find my threshold", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_end_of_a_set_says_each_thing_once()
    {
        using StandRig rig = StandTests.At("2 1 Enter");
        for (int trial = 0; trial < 8; trial++)
        {
            rig.Press("Enter").Run(8).Press("1").Run(0.04);
        }

        rig.Press("Enter").Run(0.04);
        string screen = StandTests.Joined(rig);
        Assert.Contains("The set is done.", screen, StringComparison.Ordinal);
        Assert.Contains("another set", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("In which of the two", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("trial 8", screen, StringComparison.Ordinal);
        Assert.Single(Regex.Matches(screen, "what you can tell", RegexOptions.IgnoreCase));
        Assert.Single(Regex.Matches(screen, " of 8 told"));
        // Each of the two answers has its row: how often it was told, and what it was taken for.
        Assert.Matches(@"what it was taken for: .*\d of \d told.*\d of \d told", screen);
    }

    [Fact]
    public void A_choice_is_answered_with_a_digit_and_nothing_tells_before()
    {
        using StandRig rig = StandTests.At("2 8 Enter Enter");
        rig.Run(0.4);
        Assert.DoesNotContain("It was:", rig.Screen(), StringComparison.Ordinal);
        rig.Run(8).Press("1");
        Assert.Contains("It was:", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("of 1 told", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Silence_while_a_trial_sounds_leaves_the_question_open()
    {
        using StandRig rig = StandTests.At("2 4 Enter Enter");
        rig.Run(0.6).Press(" ").Run(0.2);
        Assert.False(rig.Desk.IsSounding);
        Assert.Contains("hear again", rig.Screen(), StringComparison.Ordinal);
        rig.Press("n");
        ExploreTests.Type(rig, "1.5");
        rig.Press("Enter");
        Assert.Contains("You: 1.5 /s", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_lost_device_drops_the_trial_uncounted()
    {
        using StandRig rig = StandTests.At("2 4 Enter Enter");
        rig.Run(0.6);
        rig.Audio.Output!.End(BrassVox.Audio.LineEnd.DeviceLost, "hand: unplugged.");
        rig.Run(0.08);
        rig.Settle();
        rig.Run(0.08);
        rig.Settle();
        rig.Run(0.08);
        Assert.Contains("no trial yet", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("dropped, not counted", rig.Stand.Message, StringComparison.Ordinal);
    }
}
