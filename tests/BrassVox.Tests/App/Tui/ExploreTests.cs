using BrassVox.App.Tui.Drawing;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>Explore by its keys: what is asked of the engine, what is shown.</summary>
public sealed class ExploreTests
{
    private const string SilentHomePair =
        """
        EXPLORE   Bb1 played, F2 sung   coupled 60 %   equal A4 440        tacet  -24 dB
        ────────────────────────────────────────────────────────────────────────────────
        PLAYED            1 Bb1       2 Bb2       3 F3        4 Bb3       5 D4      6 F4
              ├───────────□───────────□───────────□───────────□───────────□───────────□
        minus ━━━━━━◇S-P              ◇2S-P
        plus                                ◇P+S        ◇2P+S ◇P+2S
        meet              :::::::::::::           ≈           ::::::::::::::::::::::::≈
          /s                 29    29            0.2             29    29       58   0.4
              ├────────────━━━━━○─────────────────○─────────────────○─────────────────○
        SUNG                    1 F2              2 F3              3 C4            4 F4
        Hz    0           58          117         175         233         291        350
        ────────────────────────────────────────────────────────────────────────────────
        PAIR  fifth 700.0 c (just 702.0)   beats 0.2 /s: 3 of P with 2 of S
        SWELL        │                                                         │
        """;

    [Fact]
    public void A_window_that_shows_all_panels_has_the_large_figures_twice_as_large()
    {
        using StandRig rig = StandTests.At("1");
        Assert.DoesNotContain("BEATS  a second", rig.Screen(200, 60), StringComparison.Ordinal);
        Assert.Contains("SIGNS", rig.Screen(200, 60), StringComparison.Ordinal);
        rig.Press("a");
        Assert.Contains("BEATS  a second", rig.Screen(200, 60), StringComparison.Ordinal);
        Assert.Contains("████    ████", rig.Screen(200, 60), StringComparison.Ordinal);
        rig.Press("a");
        Assert.DoesNotContain("BEATS  a second", rig.Screen(200, 60), StringComparison.Ordinal);
    }

    [Fact]
    public void The_keys_turn_over_to_what_the_signs_mean()
    {
        using StandRig rig = StandTests.At("1 h");
        rig.Press("a");
        string[] rows = rig.Screen().Split('\n');
        Assert.Contains(rows, row => row.StartsWith("◆  ◇", StringComparison.Ordinal));
        Assert.All(rows, row => Assert.InRange(row.Length, 0, 80));
        Assert.Contains("tones that the two make", rig.Screen(), StringComparison.Ordinal);
        rig.Press("a");
        Assert.Contains("EVERYWHERE", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_home_pair_is_drawn_before_anything_sounds()
    {
        using StandRig rig = StandTests.At("1");
        Assert.Equal(SilentHomePair, string.Join('\n', rig.Screen().Split('\n')[..14]));
    }

    /// <summary>S-P of the tuba's home pair, 29 Hz, and P lie under what the loudspeaker was heard to carry; raised by an octave nothing is marked.</summary>
    [Fact]
    public void What_the_loudspeaker_does_not_carry_is_marked()
    {
        using StandRig rig = StandTests.At("1");
        Assert.DoesNotContain("not carried", rig.Screen(), StringComparison.Ordinal);
        rig.Memory.Change(now => now with { SpeakerLowestHz = 65 });
        string[] rows = rig.Screen().Split('\n');
        Assert.Contains(rows, row => row.Contains("S-P", StringComparison.Ordinal) && row.Contains("not carried", StringComparison.Ordinal));
        Assert.Contains(rows, row => row.Contains("58.27", StringComparison.Ordinal) && row.Contains("not carried", StringComparison.Ordinal));
        Assert.DoesNotContain(rows, row => row.Contains("87.31", StringComparison.Ordinal) && row.Contains("not carried", StringComparison.Ordinal));
        rig.Memory.Change(now => now with { OctaveUp = true });
        Assert.DoesNotContain("not carried", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Enter_sounds_the_pair_and_solid_marks_show_it()
    {
        using StandRig rig = StandTests.At("1 Enter");
        rig.Run(1.0);
        Assert.Equal(58.27, rig.Desk.Engine!.Read(0).FrequencyHz, 0.01);
        Assert.Equal(87.31, rig.Desk.Engine.Read(1).FrequencyHz, 0.01);
        Canvas canvas = rig.Canvas();
        Assert.Equal(Glyphs.PlayedStrong, canvas[18, 3].Glyph);
        Assert.Equal(Glyphs.SungStrong, canvas[24, 8].Glyph);
        Assert.StartsWith("))))··", canvas.Row(0)[66..], StringComparison.Ordinal);
    }

    [Fact]
    public void Arrows_and_stops_move_the_tone_in_hand_by_5_and_1_cents()
    {
        using StandRig rig = StandTests.At("1 Enter");
        rig.Press("Right", "Right", ".", "Left").Run(0.5);
        Assert.Equal(6, Cents.Between(87.307, rig.Desk.Engine!.Read(1).FrequencyHz), 0.1);
        rig.Press("p", "Left").Run(0.5);
        Assert.Equal(-5, Cents.Between(58.270, rig.Desk.Engine.Read(0).FrequencyHz), 0.1);
        Assert.Contains("Bb1 -5 c played, F2 +6 c sung", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void C_steps_the_coupling_and_separate_takes_the_resultants_out_of_the_sound()
    {
        using StandRig rig = StandTests.At("1 Enter");
        rig.Run(0.5);
        Assert.True(rig.Desk.Engine!.Read(2).LevelDbfs > -100);
        rig.Press("c", "c").Run(0.6);
        Assert.Contains("separate", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.All(rig.Desk.Engine.Parts.Skip(2), part => Assert.True(rig.Desk.Engine.Read(part.Index).LevelDbfs < -150));
    }

    [Fact]
    public void Mute_only_and_fade_act_on_the_part_in_hand()
    {
        using StandRig rig = StandTests.At("1 Enter");
        rig.Press("p", "m").Run(0.5);
        Assert.True(rig.Desk.Engine!.Read(0).GainDb <= -79);
        rig.Press("m", "s", "o").Run(0.5);
        Assert.True(rig.Desk.Engine.Read(0).GainDb <= -79);
        Assert.Equal(0, rig.Desk.Engine.Read(1).GainDb, 0.1);
        rig.Press("o", "f").Run(0.5);
        Assert.Equal(0, rig.Desk.Engine.Read(0).GainDb, 0.1);
        Assert.Equal(-18, rig.Desk.Engine.Read(1).GainDb, 0.1);
    }

    [Theory]
    [InlineData("Bb2 C3", "whole tone 200.0 c (just 203.9)")]
    [InlineData("Bb2 F2", "fourth below 500.0 c (just 498.0)")]
    [InlineData("F3", "twelfth 1900.0 c (just 1902.0)")]
    public void A_pair_is_named_by_typing(string typed, string expected)
    {
        using StandRig rig = StandTests.At("1 n");
        Type(rig, typed);
        rig.Press("Enter");
        Assert.Contains(expected, rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_unreadable_name_keeps_its_text_with_the_caret_at_the_fault()
    {
        using StandRig rig = StandTests.At("1 n");
        Type(rig, "Bb2 X3");
        rig.Press("Enter");
        string screen = rig.Screen();
        Assert.Contains("\"X3\" is no note", screen, StringComparison.Ordinal);
        Assert.Contains("Bb2 X3", screen, StringComparison.Ordinal);
        string[] rows = screen.Split('\n');
        Assert.Equal(rows[22].IndexOf("X3", StringComparison.Ordinal), rows[23].IndexOf(Glyphs.Place, StringComparison.Ordinal));
    }

    [Fact]
    public void German_names_are_written_and_read()
    {
        using StandRig rig = StandTests.At("");
        rig.Memory.Change(now => now with { Naming = NoteNaming.German });
        rig.Press("1");
        Assert.Contains("B1 played, F2 sung", rig.Screen(), StringComparison.Ordinal);
        rig.Press("n");
        Type(rig, "B2 H2");
        rig.Press("Enter");
        Assert.Contains("semitone 100.0 c", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_tuning_key_makes_the_fifth_just_and_the_meeting_still()
    {
        using StandRig rig = StandTests.At("1 e");
        Assert.Contains("fifth 702.0 c (equal 700.0)   still: 3 of P with 2 of S", rig.Screen(), StringComparison.Ordinal);
        Assert.Equal(Glyphs.Tie, rig.Canvas()[42, 6].Glyph);
    }

    [Theory]
    [InlineData("Bb2 F4")]
    [InlineData("Bb1 G4")]
    [InlineData("Bb1 Ab4")]
    [InlineData("Bb2 Gb3")]
    public void The_line_of_the_pair_is_whole_at_80_columns(string pair)
    {
        using StandRig rig = StandTests.At("1 n");
        Type(rig, pair);
        rig.Press("Enter", "Left").Run(0.04);
        string line = rig.Screen().Split('\n').Single(row => row.StartsWith("PAIR", StringComparison.Ordinal)).TrimEnd();
        Assert.Matches(@"(\d of P with \d+ of S|\d+P, \d+S|to beat|no beats)$", line);
    }

    [Fact]
    public void An_octave_of_the_voice_is_another_chord_and_says_so()
    {
        using StandRig rig = StandTests.At("1 v");
        Assert.Contains("S F3: another chord. S-P is now Bb2", rig.Stand.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_tone_outside_the_voice_is_shown_with_a_word_of_care()
    {
        using StandRig rig = StandTests.At("1 n");
        Type(rig, "Bb1 F4");
        rig.Press("Enter", "w");
        rig.Press("a", "a", "a", "a");
        Assert.Contains("F4 lies outside your voice, F2 to D4", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_glide_moves_the_tone_in_four_seconds_and_ends_on_the_note()
    {
        using StandRig rig = StandTests.At("1 g");
        Type(rig, "Bb2");
        rig.Press("Enter").Run(2.0);
        Assert.InRange(rig.Desk.Engine!.Read(1).FrequencyHz, 95, 108);
        // Half way from F2 to Bb2 on a straight line of Hz or of cents it is 101 to 102 Hz: nearest G#2, 103.8 Hz.
        Assert.Contains("Bb1 played, Ab2 sung, gliding to Bb2", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press("w");
        Assert.Contains("S Ab2, gliding to Bb2", StandTests.Joined(rig), StringComparison.Ordinal);
        rig.Run(2.6);
        Assert.Equal(116.54, rig.Desk.Engine.Read(1).FrequencyHz, 0.02);
        Assert.Contains("octave 1200.0 c", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("Bb1 played, Bb2 sung  ", rig.Canvas().Row(0), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_changed_while_a_tone_glides_is_shown_as_it_sounds()
    {
        using StandRig rig = StandTests.At("1 g");
        Type(rig, "Bb2");
        rig.Press("Enter").Run(1.0).Press(".").Run(0.5);
        Assert.Contains("Bb1 played, Bb2 +1 c sung", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.Equal(116.54 * Math.Pow(2, 1 / 1200.0), rig.Desk.Engine!.Read(1).FrequencyHz, 0.02);

        // The other tone is changed, and a new glide is begun: neither takes the first one back.
        rig.Press("g");
        Type(rig, "C3");
        rig.Press("Enter").Run(0.5).Press("p", ".").Run(5);
        Assert.Contains("Bb1 +1 c played, C3 sung", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.Equal(130.81, rig.Desk.Engine.Read(1).FrequencyHz, 0.05);
        Assert.Equal(58.27 * Math.Pow(2, 1 / 1200.0), rig.Desk.Engine.Read(0).FrequencyHz, 0.02);
    }

    [Fact]
    public void What_is_said_of_a_moved_tone_is_whole_sentences()
    {
        using StandRig rig = StandTests.At("1 Right");
        // Of Bb1 and F2 + 5 c, 3 x 58.270 and 2 x 87.559 Hz lie 0.31 Hz apart.
        Assert.Equal("S +5 c. It beats 0.3 times a second: 3 of P with 2 of S.", rig.Stand.Message);
    }

    [Fact]
    public void The_octave_is_announced_as_fog_for_a_microphone()
    {
        using StandRig rig = StandTests.At("1 n");
        Type(rig, "F3 F4");
        rig.Press("Enter", "s", "Right", ".", ".", ".", "w", "x", "x");
        rig.Press("a");
        rig.Press("a");
        string screen = rig.Screen();
        Assert.Contains("octave 1208.0 c (just 1200.0)   beats 1.6 /s: 2 of P with 1 of S", screen, StringComparison.Ordinal);
        Assert.Contains("nearest still: 8 c down", screen, StringComparison.Ordinal);
        string[] rows = screen.Split('\n');
        Assert.Equal(28, rows[16].IndexOf(Glyphs.SungStrong, StringComparison.Ordinal));
    }

    [Fact]
    public void Frozen_the_picture_stands_while_the_sound_goes_on()
    {
        using StandRig rig = StandTests.At("1 Enter");
        rig.Run(0.6).Press("x").Run(0.3);
        Assert.Contains("frozen", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.True(rig.Desk.IsSounding);
    }

    [Fact]
    public void The_last_pair_is_there_again_in_the_next_run()
    {
        using StandRig rig = StandTests.At("1 n");
        Type(rig, "C2 E3");
        rig.Press("Enter", "Right", "Escape");
        using var later = new StandRig(dataFolder: rig.Folder);
        later.Press("1");
        Assert.Contains("C2 played, E3 +5 c sung", later.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_microphone_explore_stays_and_says_so()
    {
        using var rig = new StandRig(hasInput: false);
        rig.Press("1", "i");
        rig.Run(0.2);
        SpinWait.SpinUntil(() => { rig.Run(0.04); return rig.Stand.Message.Contains("no recording device", StringComparison.Ordinal); }, 5000);
        Assert.Contains("no recording device", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void K_lays_the_spectrum_under_and_the_row_below_shows_what_the_next_vowel_changes()
    {
        using StandRig rig = StandTests.At("1 Enter");
        rig.Press("3").Run(0.8).Press("k").Run(0.3);
        string same = rig.Canvas().Row(10);
        Assert.StartsWith("dB S", same, StringComparison.Ordinal);
        Assert.DoesNotContain('+', same);
        rig.Press("5").Run(0.8);
        string other = rig.Canvas().Row(10);
        Assert.Matches(@"dB S.*[+-]\d", other);
        rig.Press("p").Run(0.3);
        Assert.StartsWith("dB P", rig.Canvas().Row(10), StringComparison.Ordinal);
        rig.Press("z");
        Assert.StartsWith("Hz", rig.Canvas().Row(10), StringComparison.Ordinal);
    }

    [Fact]
    public void Against_separate_the_coupled_resultants_read_much_stronger()
    {
        using StandRig rig = StandTests.At("1 Enter c c");
        rig.Run(0.6);
        Assert.Contains("separate", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press("k", "c", "c").Run(0.6).Press("Tab").Run(0.3);
        string row = rig.Canvas().Row(10);
        Assert.StartsWith("dB R", row, StringComparison.Ordinal);
        Assert.Matches(@"\+\d{2}", row);
    }

    [Fact]
    public void Far_shows_both_offsets_and_the_beats_five_rows_high()
    {
        using StandRig rig = StandTests.At("1 Right Right a a a");
        Canvas canvas = rig.Canvas();
        Assert.StartsWith("PLAYED  cents", canvas.Row(14), StringComparison.Ordinal);
        for (int row = 15; row < 20; row++)
        {
            Assert.Contains(Glyphs.Block, canvas.Row(row));
        }
    }

    internal static void Type(StandRig rig, string text)
    {
        foreach (char letter in text)
        {
            rig.Press(letter.ToString());
        }
    }
}
