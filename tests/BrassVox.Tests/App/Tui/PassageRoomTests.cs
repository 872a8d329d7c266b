using BrassVox.App.Tui.Sound;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>The room of passages by keys alone.</summary>
public sealed class PassageRoomTests
{
    [Fact]
    public void The_shipped_passage_is_shown_and_walked_through()
    {
        using StandRig rig = StandTests.At("4");
        string screen = rig.Screen();
        Assert.Contains("Two Breaths, One Pipe", screen, StringComparison.Ordinal);
        Assert.Contains("AT 1.1   fifth Bb2 + F3, 702 c", screen, StringComparison.Ordinal);
        Assert.Contains("HELP LEFT", screen, StringComparison.Ordinal);
        rig.Press("Right", "Right");
        Assert.Contains("AT 2.3   fourth C3 + F3, 498 c", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Tab");
        Assert.Contains("AT 3.1", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Tab", "Tab");
        Assert.Contains("AT 4.1", rig.Screen(), StringComparison.Ordinal);
        rig.Press("r", "Right", "Right", "r", ".", ".");
        Assert.Contains("bars 4-5 of 12", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("90 %", rig.Screen(), StringComparison.Ordinal);
        rig.Press("v");
        Assert.Contains("S lies outside", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_too_slow_for_a_pitch_is_told_as_beats_or_grain_and_never_as_a_note()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press([.. Enumerable.Repeat("Right", 17)]);
        // Bb2 under C3, a just whole tone: 116.54 / 8 = 14.6 a second.
        Assert.Contains("They are grainy, 15 times a second: too slow to be a tone.", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("grain 15", rig.Screen(), StringComparison.Ordinal);
        Assert.DoesNotContain("Bb-1", rig.Screen(200, 60), StringComparison.Ordinal);
    }

    [Fact]
    public void A_turn_begins_with_the_pedal_and_clicks()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("PageDown", "PageDown").Run(3);
        Assert.Contains("PLAY ALONG", rig.Screen(), StringComparison.Ordinal);
        Assert.True(rig.Heard.Max(Math.Abs) > 0.01f, "no count is heard");
        rig.Press("PageUp").Run(0.5);
        rig.Press("Escape");
        Assert.Contains("PASSAGE", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Loop_tempo_and_octave_are_there_again_in_the_next_run_where_the_passage_has_such_bars()
    {
        using (StandRig first = StandTests.At("4"))
        {
            first.Press("Right", "Right", "r", "Right", "Right", "r", ",", ",", "v", "Escape");
            Remembered left = first.Memory.Now;
            Assert.True(left is { PassageTempo: 70, PassageOctaves: 1, Passage: null } && left.PassageToBar >= left.PassageFromBar && left.PassageFromBar > 1, left.ToString());
            using var next = new StandRig(dataFolder: first.Folder);
            next.Press("4");
            string bars = left.PassageFromBar == left.PassageToBar ? $"bar {left.PassageFromBar} of 12" : $"bars {left.PassageFromBar}-{left.PassageToBar} of 12";
            Assert.Contains(bars, next.Screen(), StringComparison.Ordinal);
            Assert.Contains("70 %", next.Screen(), StringComparison.Ordinal);
            Assert.Contains("voice an octave higher", next.Screen(120), StringComparison.Ordinal);
        }

        using var other = new StandRig();
        other.Memory.Change(now => now with { PassageFromBar = 40, PassageToBar = 44 });
        other.Press("4");
        Assert.Contains("bars 1-4 of 12", other.Screen(), StringComparison.Ordinal);
    }

    /// <summary>Paths are longer than a window is wide.</summary>
    [Fact]
    public void A_long_path_is_typed_whole_and_its_keys_stay_readable()
    {
        const string Keys = "Enter takes it   Esc leaves it   ^T tacet";
        using StandRig rig = StandTests.At("4");
        string folder = Directory.CreateDirectory(Path.Combine(rig.Folder, new string('a', 90), new string('b', 90))).FullName;
        string path = Path.Combine(folder, "score.txt");
        File.WriteAllText(path, "title: Boiler house\nP: Bb2/1 |\nS: F3/1 |\n");
        rig.Stand.Top.Mark(rig.Stand.Top.Choices.ToList().FindIndex(choice => choice.Label == "from a file"));
        rig.Press("Enter");
        foreach (char letter in path + "x")
        {
            rig.Press(letter.ToString());
            Assert.Contains(Keys, rig.Screen(), StringComparison.Ordinal);
        }

        Assert.Contains("bbbb/score.txtx_", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Enter");
        Assert.Contains("score.txtx: there is no such file", string.Concat(rig.Screen().Split('\n')), StringComparison.Ordinal);
        rig.Press("Home");
        Assert.Contains($"MIDI): {path[..20]}", rig.Screen(), StringComparison.Ordinal);
        rig.Press("End", "Backspace", "Enter");
        Assert.Contains("Boiler house", rig.Screen(), StringComparison.Ordinal);
        Assert.StartsWith("▸ play the loop", rig.Canvas().Row(23), StringComparison.Ordinal);
        Assert.Contains("Up Down other", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_with_a_fault_is_told_and_the_open_passage_stays()
    {
        using StandRig rig = StandTests.At("4");
        string path = Path.Combine(rig.Folder, "x.txt");
        File.WriteAllText(path, "P: Bb2/4 Qb/4\n");
        rig.Stand.Top.Choices.Single(choice => choice.Label == "from a file").Do();
        rig.Press([.. path.Select(c => c.ToString())]);
        rig.Press("Enter");
        Assert.Contains("line 1, column 10", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Escape");
        Assert.Contains("Two Breaths, One Pipe", rig.Screen(), StringComparison.Ordinal);
    }
}
