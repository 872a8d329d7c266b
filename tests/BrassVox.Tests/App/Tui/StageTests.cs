using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.App.Tui.Rooms;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Scenes;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>Stage by its keys and its pedal: what sounds, what stands large, what a crash leaves.</summary>
public sealed class StageTests
{
    [Theory]
    [InlineData(80, 24)]
    [InlineData(200, 60)]
    public void In_ASCII_too_no_kind_of_mark_looks_like_another_and_no_name_covers_a_tie(int width, int height)
    {
        using StandRig rig = StandTests.At("7 2");
        rig.Run(0.5);
        string[] rows = [.. Enumerable.Range(0, height).Select(y => rig.Canvas(width, height).Row(y, ascii: true))];
        // The diamonds of the resultants lie above the rail of S, its rings below.
        int rail = Array.FindLastIndex(rows, row => row.Contains("----------------", StringComparison.Ordinal));
        Assert.All(rows[..rail], row => Assert.DoesNotContain('(', row));
        Assert.Contains(rows[..rail], row => row.Contains("/\\", StringComparison.Ordinal));
        Assert.Contains(rows[rail..], row => row.Contains(height < 50 ? "()" : "(--)", StringComparison.Ordinal));
        Assert.All(rows[rail..^3], row => Assert.DoesNotContain('\\', row));
        Assert.Contains(rows, row => row.Contains("P+S", StringComparison.Ordinal) && row.Contains(height < 50 ? "||" : "||||", StringComparison.Ordinal));
    }

    [Fact]
    public void A_scene_is_drawn_as_asked_before_the_engine_has_rendered_a_block()
    {
        using var rig = new StandRig();
        rig.Press("7", "2");
        Assert.True(rig.Desk.IsSounding);
        Assert.Equal(0, rig.Desk.Engine!.Read(1).FrequencyHz);
        string screen = rig.Screen();
        Assert.Contains("Bb1  58.", screen, StringComparison.Ordinal);
        Assert.Contains("F3  174.8 Hz", screen, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_left_out_for_the_audience_is_to_be_sung_and_not_called_made()
    {
        using StandRig rig = StandTests.At("7 9");
        rig.Run(0.5);
        string screen = rig.Screen();
        Assert.Contains("SING  S-P  Bb1", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("MADE", screen, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_sounds_until_a_scene_is_begun_and_the_forward_pedal_goes_from_scene_to_scene()
    {
        using StandRig rig = StandTests.At("7");
        Assert.False(rig.Desk.IsSounding);
        Assert.Contains("▸ 1 Fifth, separate  PgUp", rig.Screen(), StringComparison.Ordinal);
        rig.Press("PageDown").Run(0.5);
        Assert.Contains("STAGE   1 of 9   Fifth, separate", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.Contains("▸ 2 Fifth, coupled  PgUp", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains(rig.Heard, sample => Math.Abs(sample) > 0.001);
        rig.Press("PageDown").Run(0.5);
        Assert.Contains("2 of 9", rig.Canvas().Row(0), StringComparison.Ordinal);
        rig.Press("PageUp").Run(0.2);
        Assert.False(rig.Desk.IsSounding);
        rig.Press("PageUp");
        Assert.Contains("▸ 2 Fifth, coupled  PgUp", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_fifth_stands_as_designed_with_its_resultant_large_between()
    {
        using StandRig rig = StandTests.At("7 2");
        rig.Run(1.0);
        Canvas canvas = rig.Canvas();
        string screen = canvas.ToString();
        Assert.StartsWith(" █████   ██     █████", canvas.Row(2), StringComparison.Ordinal);
        Assert.Contains("MADE  S-P  Bb1  58.", screen, StringComparison.Ordinal);
        Assert.StartsWith(" █████   ██       ██", canvas.Row(9), StringComparison.Ordinal);
        // 8 columns for each P from column 30: P at 38, S at 42, S-P at 34 (2:3, exact).
        Assert.Equal(Glyphs.Block, canvas[38, 4].Glyph);
        Assert.Equal('╭', canvas[42, 17].Glyph);
        Assert.Equal('╱', canvas[34, 8].Glyph);
        // 3P and 2S coincide: a tie from rail to rail at column 54.
        Assert.All(Enumerable.Range(7, 9), row => Assert.NotEqual(' ', canvas[54, row].Glyph));
        Assert.Contains("still", canvas.Row(21), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(80, 24)]
    [InlineData(120, 40)]
    [InlineData(200, 60)]
    [InlineData(300, 100)]
    public void Statement_17_what_is_read_from_the_hall_is_five_rows_high_or_more(int width, int height)
    {
        using StandRig rig = StandTests.At("7 2");
        rig.Run(0.5);
        Canvas canvas = rig.Canvas(width, height);
        int size = width >= 180 && height >= 50 ? 2 : 1;
        int left = size == 2 ? 36 : 0;
        int[] tops = [1 + size, 1 + (8 * size), 1 + (15 * size)];
        foreach (int top in tops)
        {
            for (int row = top; row < top + (BigGlyphs.Rows * size); row++)
            {
                Assert.Contains(Enumerable.Range(left, 29 * size), x => canvas[x, row].Glyph == Glyphs.Block);
            }
        }
    }

    [Fact]
    public void Long_names_leave_the_rails_less_room_and_are_whole()
    {
        using StandRig rig = StandTests.At("");
        rig.Memory.Change(now => now with { Naming = NoteNaming.Solfege });
        rig.Press("7", "2").Run(0.5);
        Assert.True(BigGlyphs.WidthOf("SIb2") > 27);
        Canvas canvas = rig.Canvas();
        Assert.Equal(Glyphs.Block, canvas[43 + 6, 4].Glyph);
        Assert.Equal(' ', canvas[42, 3].Glyph);
    }

    [Fact]
    public void The_landing_begins_a_semitone_off_and_its_rate_stands_large_until_it_is_still()
    {
        using StandRig rig = StandTests.At("7 6");
        rig.Run(1.0);
        // 100 c over Bb2 (116.54 Hz): 6.9 beats a second (exact arithmetic).
        Assert.Contains("beats a second", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("6.9 /s", rig.Screen(), StringComparison.Ordinal);
        rig.Run(14);
        Assert.Contains("MADE  still", rig.Screen(), StringComparison.Ordinal);
        rig.Press("r").Run(0.5);
        Assert.Contains("6.9 /s", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Statement_16_a_change_of_scene_sounds_within_300_ms_and_steps_no_further_than_the_scenes_do()
    {
        using StandRig rig = StandTests.At("7");
        float steady = 0;
        foreach (string scene in new[] { "1", "2", "3", "4", "5", "6", "7", "8", "9" })
        {
            rig.Press(scene).Run(0.4).Run(1.0);
            steady = Math.Max(steady, LargestStep(rig.Heard));
        }

        foreach (string scene in new[] { "2", "4", "8", "3", "9", "5", "7", "1", "6", "2" })
        {
            rig.Press(scene).Run(0.3);
            Assert.InRange(LargestStep(rig.Heard), 0, 1.05 * steady);
            List<float> last = [.. rig.Heard.TakeLast(2400)];
            rig.Run(0.05);
            Assert.Contains(last, sample => Math.Abs(sample) > 0.001);
            Scene shown = SceneLibrary.Load(SceneLibrary.ShippedFolder).Scenes.Single(item => item.Number == int.Parse(scene, System.Globalization.CultureInfo.InvariantCulture));
            var sound = new SceneSound(shown, rig.Stand.Profile.A4Hz);
            Assert.Equal(sound.Path(VoiceRole.Sung).FrequencyHz(0.3), rig.Desk.Engine!.Read(1).FrequencyHz, 0.3);
        }
    }

    [Fact]
    public void Spotlight_lays_the_others_under_one_part()
    {
        using StandRig rig = StandTests.At("7 2");
        rig.Run(0.5).Press("Tab").Run(0.3);
        Assert.Equal(0, rig.Desk.Engine!.Read(0).GainDb, 0.1f);
        Assert.Equal(-18, rig.Desk.Engine.Read(1).GainDb, 0.1f);
        Assert.Contains("Spotlight on P", rig.Stand.Message, StringComparison.Ordinal);

        // By its shape, not by colour alone: what is lit stays solid, all else lies dotted in its place.
        string screen = rig.Screen();
        Assert.Contains("··S-P", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("╱╲", screen, StringComparison.Ordinal);
        Assert.DoesNotContain("╭╮", screen, StringComparison.Ordinal);
        Assert.Contains("██      ██      ██      ██      ██      ██", screen, StringComparison.Ordinal);
        rig.Press("2").Run(0.3);
        Assert.Contains("╭╮", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains(" 2P+S", rig.Screen(), StringComparison.Ordinal);
        Assert.Equal(0, rig.Desk.Engine.Read(1).GainDb, 0.1f);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Where_only_a_resultant_sounds_the_tones_that_made_it_stand_in_small_print(bool hasOutput)
    {
        using var rig = new StandRig(hasOutput: hasOutput);
        rig.Press("7", "3").Run(0.5);
        string[] rows = rig.Screen().Split('\n');
        Assert.Equal("PLAYED  Bb2  116.5 Hz, not heard in this scene", rows[1].TrimEnd());
        Assert.Equal("MADE  S-P  Bb1  58.3 Hz", rows[8][..23]);
        Assert.Equal("SUNG  F3  174.8 Hz, not heard in this scene", rows[15].TrimEnd());
        Assert.All(rows[2..7].Concat(rows[16..21]), row => Assert.DoesNotContain(Glyphs.Block, row));
        Assert.All(rows[2..7].Concat(rows[16..21]), row => Assert.Equal("", row.Replace(Glyphs.Rail, ' ').Trim()));
        Assert.Contains(rows[9..14], row => row.Contains(Glyphs.Block, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(true, "Sounding.")]
    [InlineData(false, "No sound device: nothing is heard.")]
    public void Where_says_whether_anything_is_heard(bool hasOutput, string said)
    {
        using var rig = new StandRig(hasOutput: hasOutput);
        rig.Press("7", "3").Run(0.5);
        Assert.Contains(said, rig.Stand.Top.Where, StringComparison.Ordinal);
        Assert.Equal(hasOutput, rig.Stand.Top.Where.Contains("Sounding.", StringComparison.Ordinal));
    }

    [Fact]
    public void The_last_scene_leaves_the_resultant_to_the_audience()
    {
        using StandRig rig = StandTests.At("7 9");
        rig.Run(0.5);
        Assert.True(rig.Desk.Engine!.Read(2).LevelDbfs < -80);
        Assert.Contains("S-P", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void Blank_leaves_the_state_of_the_sound_and_frozen_stands_still()
    {
        using StandRig rig = StandTests.At("7 6");
        rig.Run(1).Press("b");
        Assert.Equal("))))··  -24 dB", rig.Screen().Trim());
        rig.Press("b", "x").Run(0.3);
        string frozen = string.Join('\n', rig.Screen().Split('\n')[1..21]);
        rig.Run(5);
        Assert.Equal(frozen, string.Join('\n', rig.Screen().Split('\n')[1..21]));
        Assert.True(rig.Desk.IsSounding);
    }

    [Fact]
    public void Statement_20_a_run_that_was_killed_on_stage_begins_there_silent_with_its_scene_marked()
    {
        using StandRig killed = StandTests.At("7 4");
        killed.Run(0.5);
        using var next = new StandRig(dataFolder: killed.Folder);
        Assert.IsType<StageRoom>(next.Stand.Top);
        Assert.False(next.Desk.IsSounding);
        Assert.Contains("▸ 4 Whole tone  PgUp", next.Screen(), StringComparison.Ordinal);
        Assert.Contains("tacet", next.Canvas().Row(0), StringComparison.Ordinal);
        next.Press("Escape");
        using var later = new StandRig(dataFolder: killed.Folder);
        Assert.IsType<StartRoom>(later.Stand.Top);
    }

    [Fact]
    public void K_in_explore_keeps_a_scene_once_z_takes_it_back_and_stage_can_delete_it()
    {
        using StandRig rig = StandTests.At("1 Right k");
        Assert.Contains("Scene 10 of Stage", rig.Stand.Message, StringComparison.Ordinal);
        rig.Press("k");
        Assert.Contains("scene 10 of Stage already", rig.Stand.Message, StringComparison.Ordinal);
        rig.Press("z");
        Assert.Empty(Directory.EnumerateFiles(SceneLibrary.OwnFolder(rig.Folder)));
        rig.Press("k", "Escape", "7");
        Assert.Contains("10 Bb1 + F2, coupled", rig.Screen(), StringComparison.Ordinal);
        for (int i = 0; i < 9; i++)
        {
            rig.Press("Down");
        }

        rig.Press("Delete");
        Assert.DoesNotContain("10 Bb1", rig.Screen(), StringComparison.Ordinal);
        rig.Press("z");
        Assert.Contains("10 Bb1", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Up", "Delete");
        Assert.Contains("comes with the program", rig.Stand.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void R_begins_what_is_shown_again_also_after_something_was_deleted_and_a_file_of_any_name_is_ones_own()
    {
        using StandRig rig = StandTests.At("1 Right k");
        string folder = SceneLibrary.OwnFolder(rig.Folder);
        File.Move(Assert.Single(Directory.EnumerateFiles(folder)), Path.Combine(folder, "mine.json"));
        rig.Press("Escape", "7", "9").Run(0.3);
        Assert.Contains("10 Bb1 + F2, coupled", rig.Stand.Top.Choices[rig.Stand.Top.MarkedIndex].Label, StringComparison.Ordinal);
        rig.Press("Delete");
        Assert.Empty(Directory.EnumerateFiles(folder));
        rig.Press("r").Run(0.3);
        Assert.Contains("9 of 9", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.StartsWith("9 ", rig.Stand.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_broken_scene_of_ones_own_is_told_with_line_and_key_and_the_others_run()
    {
        using StandRig rig = StandTests.At("");
        string folder = SceneLibrary.OwnFolder(rig.Folder);
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "mine.json"), "{\n  \"formatVersion\": 1,\n  \"idd\": 3\n}");
        rig.Press("7");
        Assert.Contains("mine.json, line 3, $.idd", rig.Screen(), StringComparison.Ordinal);
        rig.Press("1").Run(0.3);
        Assert.True(rig.Desk.IsSounding);
    }

    private static float LargestStep(List<float> samples) =>
        samples.Zip(samples.Skip(1), (a, b) => Math.Abs(b - a)).DefaultIfEmpty().Max();
}
