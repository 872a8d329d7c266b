using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>A play-along exercise by keys alone, with a player made of sines on the microphone.</summary>
public sealed class PlayAlongTests
{
    private const double CueAndTake = 14;

    [Fact]
    public void Statement_14_until_the_sentence_is_whole_no_cell_depends_on_the_pitch()
    {
        List<string> heard = Screens(Player(58.27, 87.31));
        List<string> flat = Screens(Player(56.0, 90.0));
        List<string> silent = Screens(_ => 0);
        Assert.Equal(heard, flat);
        Assert.Equal(heard, silent);
    }

    [Fact]
    public void A_take_is_said_revealed_and_kept()
    {
        // P a true Bb1 (58.27 Hz at A4 = 440), S a fifth above it, 3 c wide of just (3/2), so that the pair beats slowly.
        using StandRig rig = StandTests.At("3 1 4 Enter");
        rig.Press("Enter").Run(0.04);
        rig.Run(CueAndTake, Player(58.2705, 58.2705 * 1.5026));
        Assert.Contains("finish the sentence", rig.Screen(), StringComparison.Ordinal);
        // No word is marked before the player marks one, and Enter takes none.
        rig.Press("Enter");
        Assert.Contains("Left or Right marks a word", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain("▸", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Right", "Right", "Enter", "2", "Right", "Enter", "1", "Right", "Right", "Enter");
        Assert.True(SpinWait.SpinUntil(
            () =>
            {
                rig.Run(0.04);
                return rig.Screen().Contains("NEXT", StringComparison.Ordinal);
            },
            TimeSpan.FromSeconds(20)));
        string screen = rig.Screen();
        Assert.Matches("PLAY ALONG +reveal", screen);
        Assert.Contains("PLAYED Bb1    you said true: yes, ", screen, StringComparison.Ordinal);
        Assert.Contains("SUNG F2       you said true: yes, ", screen, StringComparison.Ordinal);
        Assert.True(SpinWait.SpinUntil(
            () => Directory.EnumerateFiles(rig.Folder, "*.json", SearchOption.AllDirectories).Any(path => File.ReadAllText(path).Contains("\"said\":{", StringComparison.Ordinal)),
            TimeSpan.FromSeconds(5)));
        Assert.NotEmpty(Directory.EnumerateFiles(rig.Folder, "*.wav", SearchOption.AllDirectories));
        rig.Run(0.2).Press("Escape", "Escape", "5");
        Assert.True(SpinWait.SpinUntil(
            () =>
            {
                rig.Run(0.04);
                return rig.Screen().Contains("1 kept here", StringComparison.Ordinal);
            },
            TimeSpan.FromSeconds(10)));
        Assert.Contains("YOU SAID  my played tone was true: it was true", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Delete");
        Assert.Contains("0 kept here", rig.Screen(), StringComparison.Ordinal);
        rig.Press("z");
        Assert.Contains("1 kept here", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Delete");
        Assert.NotEmpty(Directory.EnumerateFiles(rig.Folder, "*.wav", SearchOption.AllDirectories));
        rig.Stand.EmptyDiscarded();
        Assert.Empty(Directory.EnumerateFiles(rig.Folder, "*.wav", SearchOption.AllDirectories));
    }

    [Fact]
    public void Role_and_drone_are_chosen_between_takes_and_the_take_is_asked_so()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter");
        rig.Press("m", "m");
        Assert.Contains("The drone comes and goes, three seconds each.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("o", ",");
        Assert.Contains("You play; the voice is synthesised.", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("it has no tempo", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter").Run(0.04);
        rig.Run(CueAndTake, Player(58.2705, 0));
        Assert.Contains("finish the sentence", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain("my sung tone", rig.Screen(), StringComparison.Ordinal);
        rig.Press("o");
        Assert.Contains("Between two takes", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_said_of_the_drone_before_a_take_is_true_of_the_drone_as_it_is_set()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter");
        Assert.Contains("The drone leaves at 4 s.", StandTests.Joined(rig), StringComparison.Ordinal);
        rig.Press("m", "m", "m");
        Assert.Contains("No drone.", StandTests.Joined(rig), StringComparison.Ordinal);
        Assert.DoesNotContain("The drone leaves", StandTests.Joined(rig), StringComparison.Ordinal);
        rig.Press("Enter").Run(0.04);
        Assert.DoesNotContain("drone leaves", StandTests.Joined(rig), StringComparison.Ordinal);
    }

    [Fact]
    public void A_number_is_said_before_the_take_and_the_reveal_holds_it_against_the_measured_one()
    {
        // Balance: P Bb1 and S a major sixth above, just 5/3. The player plays P 8 c high throughout, stretches and rests alike.
        using StandRig rig = StandTests.At("3");
        var room = new PlayAlongRoom(rig.Stand, ExerciseResolver.Resolve(rig.Stand.Parts.Exercises.Find("balance")!, rig.Memory.Now.Profile).Resolved!);
        rig.Stand.Open(room);
        rig.Press("Enter").Run(0.04);
        Assert.Contains("I expect my played tone to lie, in cents, at", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain("cue", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press("m");
        Assert.Contains("Between two takes", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Right");
        Assert.Contains("▸+10", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter").Run(0.04);
        Assert.Contains("cue", rig.Canvas().Row(0), StringComparison.Ordinal);
        double playedHz = 58.2705 * Math.Pow(2, 8 / 1200.0);
        rig.Run(26, Player(playedHz, 58.2705 * 5 / 3));
        Assert.Contains("finish the sentence", rig.Screen(), StringComparison.Ordinal);
        rig.Press("1", "1", "1", "1", "1");
        Assert.True(SpinWait.SpinUntil(
            () =>
            {
                rig.Run(0.04);
                return rig.Screen().Contains("NEXT", StringComparison.Ordinal);
            },
            TimeSpan.FromSeconds(30)));
        Assert.True(SpinWait.SpinUntil(
            () => rig.Run(0.04).Screen().Contains("YOU WERE  guessing, for the first time: ", StringComparison.Ordinal), TimeSpan.FromSeconds(20)));
        Assert.Matches(@"YOU EXPECTED  P \+10 c: yes, it was \+[789] c; near enough is within 10 c", rig.Screen());
        rig.Press("Enter");
        Assert.Contains("I expect my played tone", rig.Screen(), StringComparison.Ordinal);
    }

    /// <summary>Silence cannot be right: of a take of which nothing is told nothing is said of sureness, nor does a body note within the next take go to it.</summary>
    [Fact]
    public async Task A_silent_take_says_nothing_of_sureness_and_the_next_one_has_its_own_notes()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        rig.Run(CueAndTake).Press("2", "2", "1", "1", "3");
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Screen().Contains("NEXT", StringComparison.Ordinal), TimeSpan.FromSeconds(30)));
        Assert.NotNull(await rig.Stand.Top.NotedTake.Id);
        rig.Run(1);
        Assert.DoesNotContain("YOU WERE", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter").Run(0.5);
        Assert.Same(NotedTake.None, rig.Stand.Top.NotedTake);
    }

    /// <summary>Who notes at once, while the take is still measured, notes of that take.</summary>
    [Fact]
    public void A_body_note_before_the_take_is_kept_goes_to_it()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        rig.Run(CueAndTake);
        rig.Press("y");
        Assert.Contains("14 Open home pair, this take", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press("3");
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Stand.Log.BodyNotes(TakeFilter.All).Count == 1, TimeSpan.FromSeconds(30)));
        Assert.Equal(rig.Stand.Log.Takes(TakeFilter.All)[0].Take.Id, rig.Stand.Log.BodyNotes(TakeFilter.All)[0].TakeId);
    }

    /// <summary>Who notes while the take runs notes of that take.</summary>
    [Fact]
    public void A_body_note_within_a_take_goes_to_it()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.5).Stand.Top.Phase.StartsWith("Dark", StringComparison.Ordinal), TimeSpan.FromSeconds(30)));
        rig.Press("y");
        Assert.Contains("14 Open home pair, this take", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press("3");
        rig.Run(CueAndTake);
        Assert.True(SpinWait.SpinUntil(() => rig.Run(0.04).Stand.Log.BodyNotes(TakeFilter.All).Count == 1, TimeSpan.FromSeconds(30)));
        Assert.Equal(rig.Stand.Log.Takes(TakeFilter.All)[0].Take.Id, rig.Stand.Log.BodyNotes(TakeFilter.All)[0].TakeId);
    }

    /// <summary>Exercise 19's whole name fills the first row of 80 columns: its short one stands there.</summary>
    [Fact]
    public void The_first_row_names_the_exercise_in_a_narrow_window()
    {
        using StandRig rig = StandTests.At("3 1 9 Enter");
        Assert.Contains(rig.Stand.Parts.Exercises.Find("voice-glides-to-the-octave")!.InShort, rig.Canvas().Row(0), StringComparison.Ordinal);
    }

    [Fact]
    public void Esc_in_the_sentence_leaves_without_looking()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        rig.Run(CueAndTake).Press("Escape");
        Assert.IsType<PlayMenuRoom>(rig.Stand.Top);
    }

    [Theory]
    [InlineData("Escape")]
    [InlineData("Tacet")]
    [InlineData("Interrupt")]
    public void A_take_is_kept_to_where_it_ends_said_or_not(string ending)
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        rig.Run(9, Player(58.2705, 87.406)).Press(ending);
        rig.Stand.Close(TimeSpan.FromSeconds(20));
        Assert.Single(Directory.EnumerateFiles(rig.Folder, "*.wav", SearchOption.AllDirectories));
        Assert.Single(new TakeStore(rig.Folder, TimeProvider.System).List().Takes, logged => logged.Take.Said is null);
    }

    [Theory]
    [InlineData("Escape")]
    [InlineData("Interrupt")]
    public void A_whole_sentence_is_kept_also_where_one_leaves_before_the_take_is_measured(string ending)
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        rig.Run(CueAndTake, Player(58.2705, 87.406));
        // No tick passes between the last word and the leaving: nothing is revealed.
        rig.Press("2", "2", "1", "1", "1", ending);
        Assert.Empty(rig.Stand.Close(TimeSpan.FromSeconds(20)));
        var store = new TakeStore(rig.Folder, TimeProvider.System);
        TakeRecord kept = Assert.Single(store.List().Takes).Take;
        Assert.Equal(Sureness.Guessing, kept.Said?.Sure);
        Assert.Equal(kept.Said, store.Read(kept.Id)!.Said);
    }

    [Fact]
    public void Silence_in_the_dark_ends_the_take_and_no_sound_comes_back()
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        rig.Run(6);
        Assert.Contains("dark", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press(" ").Run(0.1).Run(4);
        Assert.All(rig.Heard, sample => Assert.InRange(Math.Abs(sample), 0, 1e-4));
        Assert.Contains("finish the sentence", rig.Screen(), StringComparison.Ordinal);
    }

    private static Func<int, float> Player(double playedHz, double sungHz) => sample =>
    {
        double t = (double)sample / HandAudio.RateHz;
        double sum = 0;
        for (int n = 1; n <= 6; n++)
        {
            sum += (Math.Sin(Math.Tau * n * playedHz * t) + Math.Sin(Math.Tau * n * sungHz * t)) / n;
        }

        return (float)(0.05 * sum);
    };

    private static List<string> Screens(Func<int, float> player)
    {
        using StandRig rig = StandTests.At("3 1 4 Enter Enter");
        List<string> screens = [];
        for (int i = 0; i < 5; i++)
        {
            rig.Run(2.8, player);
            screens.Add(rig.Screen());
        }

        rig.Press("Enter");
        screens.Add(rig.Screen());
        Assert.Contains("true", screens[^1], StringComparison.Ordinal);
        return screens;
    }
}
