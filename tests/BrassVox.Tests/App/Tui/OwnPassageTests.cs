using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Plain;
using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Passages;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>A passage typed on the screen: read as it is typed, kept, opened, practised, there again in the next run.</summary>
public sealed class OwnPassageTests
{
    private const string Whole = "title: Boiler house\ntime: 3/4\nP: Bb2/4 C3 D3 |\nS: F3/4 G3 A3 |";

    [Fact]
    public void A_typed_passage_is_read_kept_opened_and_played()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        Type(rig, Whole);
        Assert.Contains("It reads.", rig.Screen(), StringComparison.Ordinal);
        Assert.False(rig.Desk.IsSounding);
        rig.Press("Escape");
        string screen = rig.Screen();
        Assert.Contains("PASSAGE", screen, StringComparison.Ordinal);
        Assert.Contains("Boiler house", screen, StringComparison.Ordinal);
        Assert.Contains("AT 1.1   fifth Bb2 + F3", screen, StringComparison.Ordinal);
        Assert.Contains("Bb1", screen, StringComparison.Ordinal);
        Assert.Equal(Whole, File.ReadAllText(Path.Combine(rig.Folder, "passages", "own-1.txt")));
        rig.Press("PageDown", "PageDown").Run(3);
        Assert.Contains("PLAY ALONG", rig.Screen(), StringComparison.Ordinal);
        Assert.True(rig.Heard.Max(Math.Abs) > 0.01f, "no count is heard");
    }

    [Fact]
    public void Two_programs_that_write_a_new_passage_at_once_keep_both()
    {
        using StandRig rig = StandTests.At("4 n");
        var other = new OwnPassages(rig.Folder);
        Assert.Equal("own-1.txt", other.KeepUnnamed("theirs"));
        Type(rig, Whole);
        rig.Press("Escape");
        Assert.Equal(["own-1.txt", "own-2.txt"], other.Names);
        Assert.Equal("theirs", other.Text("own-1.txt"));
        Assert.Equal(Whole, other.Text("own-2.txt"));
    }

    [Fact]
    public void A_passage_that_cannot_be_kept_when_the_program_ends_is_told_at_the_end()
    {
        using StandRig rig = StandTests.At("4 n");
        File.WriteAllText(Path.Combine(rig.Folder, "passages"), "a file where the folder would be");
        Type(rig, Whole);
        Assert.Contains("the passage being written cannot be kept there", Assert.Single(rig.Stand.Close(TimeSpan.FromSeconds(20))), StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_typed_is_taken_back_word_by_word_and_done_again()
    {
        var page = new TextPage("P:", _ => null);
        page.Press(PressKind.End);
        foreach (char letter in "  Bb2/4 C3")
        {
            page.Press(letter == ' ' ? PressKind.Space : letter);
        }

        page.Press(PressKind.Enter);
        page.Paste("S: F3/4\nxyz");
        page.Press(PressKind.Backspace);
        page.Press(PressKind.Backspace);
        Assert.Equal("P:  Bb2/4 C3\nS: F3/4\nx", page.Text);
        List<string> back = [];
        while (page.Undo())
        {
            back.Add(page.Text);
        }

        Assert.Equal(
            ["P:  Bb2/4 C3\nS: F3/4\nxyz", "P:  Bb2/4 C3\n", "P:  Bb2/4 C3", "P:  Bb2/4 ", "P:  Bb2/4", "P:  ", "P: ", "P:"], back);
        Assert.Equal((0, 2), (page.Line, page.Column));
        while (page.Redo())
        {
        }

        Assert.Equal("P:  Bb2/4 C3\nS: F3/4\nx", page.Text);
        Assert.True(page.Undo());
        page.Press('q');
        Assert.False(page.Redo());

        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        string first = rig.Stand.Top.Page!.Text;
        rig.Press("a", "b", "Undo");
        Assert.Equal(first, rig.Stand.Top.Page.Text);
        Assert.Null(rig.Stand.Top.Page.Fault is { Line: 0 } ? "no place" : null);
        rig.Press("Undo");
        Assert.Contains("Nothing to undo.", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Redo");
        Assert.Contains("My passageab", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_fault_is_told_with_its_place_and_the_caret_goes_there()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        Type(rig, "time: 2/4\nP: Bb2/4 Hb3 |\nS: F3/4 G3 |");
        Assert.Contains("line 2, column 10: \"Hb3\" is no note", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Tab");
        Assert.Equal((1, 9), (rig.Stand.Top.Page!.Line, rig.Stand.Top.Page.Column));
        Assert.Contains("line 2, column 10", rig.Screen().Split('\n')[0], StringComparison.Ordinal);
        rig.Press("Delete", "B");
        Assert.Contains("It reads.", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_faulty_text_is_not_left_unwarned_and_is_kept_as_it_stands()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        Type(rig, "P: Bb2/4 |\nS: F3/2 |");
        rig.Press("Escape");
        Assert.Contains("AS TEXT", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("Not whole yet", rig.Screen(), StringComparison.Ordinal);
        rig.Press("Escape");
        Assert.Contains("Two Breaths, One Pipe", rig.Screen(), StringComparison.Ordinal);
        Assert.Equal("P: Bb2/4 |\nS: F3/2 |", File.ReadAllText(Path.Combine(rig.Folder, "passages", "own-1.txt")));

        // "another passage" comes back to it, as text since it does not read.
        rig.Stand.Top.Choices.Single(choice => choice.Label == "another passage").Do();
        Assert.Contains("S: F3/2 |", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_blank_page_left_at_once_keeps_nothing()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n", "Escape");
        Assert.Contains("Two Breaths, One Pipe", rig.Screen(), StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(rig.Folder, "passages")));
    }

    [Fact]
    public void An_own_passage_that_is_emptied_is_gone()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        Type(rig, Whole);
        rig.Press("Escape", "n");
        Clear(rig);
        rig.Press("Escape");
        Assert.Contains("own-1.txt was empty and is gone", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("Two Breaths, One Pipe", rig.Screen(), StringComparison.Ordinal);
        Assert.Empty(Directory.EnumerateFiles(Path.Combine(rig.Folder, "passages")));
    }

    [Fact]
    public void What_is_being_typed_outlives_a_crash()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        Type(rig, "P: Bb2/4");
        rig.Run(3);
        Assert.Equal("P: Bb2/4", File.ReadAllText(Path.Combine(rig.Folder, "passages", "own-1.txt")));
    }

    [Fact]
    public void The_next_run_opens_it_again_with_its_loop_tempo_and_octave_and_changes_it()
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-stand-").FullName;
        string copy = Directory.CreateTempSubdirectory("brassvox-stand-").FullName;
        using (var rig = new StandRig(dataFolder: folder))
        {
            rig.Press("4", "n");
            Type(rig, "title: Two bars\ntime: 1/4\nP: Bb2/4 | C3 | D3 |\nS: F3/4 | G3 | A3 |");
            rig.Press("Escape", "Right", "r", "r", ".", "v");
            Assert.Contains("bar 2 of 3", rig.Screen(), StringComparison.Ordinal);

            // The end of a run that is still in the room, as after Ctrl-C.
            rig.Stand.Press(PressKind.Interrupt);
            rig.Stand.Close(TimeSpan.FromSeconds(5));
            foreach (string path in Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories))
            {
                string target = Path.Combine(copy, Path.GetRelativePath(folder, path));
                Directory.CreateDirectory(Path.GetDirectoryName(target)!);
                File.Copy(path, target);
            }
        }

        using var next = new StandRig(dataFolder: copy);
        next.Press("4");
        string screen = next.Screen();
        Assert.Contains("Two bars", screen, StringComparison.Ordinal);
        Assert.Contains("bar 2 of 3", screen, StringComparison.Ordinal);
        Assert.Contains("85 %", screen, StringComparison.Ordinal);
        Assert.Contains("voice an octave higher", next.Screen(120), StringComparison.Ordinal);
        next.Press("n");
        Assert.Contains("P: Bb2/4 | C3 | D3 |", next.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_own_passage_that_has_gone_is_named_and_the_shipped_one_opens()
    {
        using var rig = new StandRig();
        rig.Memory.Change(now => now with { Passage = "own-7.txt", PassageFromBar = 3, PassageToBar = 3 });
        rig.Press("4");
        Assert.Contains("Two Breaths, One Pipe", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("there is no such file", rig.Screen(), StringComparison.Ordinal);
        Assert.Contains("bars 1-4 of 12", rig.Screen(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_pasted_is_typed_as_a_whole_and_never_taken_for_commands()
    {
        using StandRig rig = StandTests.At("4");
        rig.Stand.Paste("q\nr");
        Assert.Contains("Nothing is being typed here", rig.Screen(), StringComparison.Ordinal);
        rig.Press("n");
        Clear(rig);
        rig.Stand.Paste("P:\tBb2/1\u001B[2J\r\nS: F3/1");
        Assert.Equal("P: Bb2/1[2J\nS: F3/1", rig.Stand.Top.Page!.Text);
    }

    [Fact]
    public void Space_types_and_Ctrl_T_silences_on_the_page()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        Clear(rig);
        rig.Press("P", ":", " ", "Tacet");
        Assert.Equal("P: ", rig.Stand.Top.Page!.Text);
    }

    [Fact]
    public void A_screen_reader_hears_the_line_it_comes_to_and_the_fault()
    {
        using StandRig rig = StandTests.At("4");
        rig.Press("n");
        Type(rig, "P: Bb2/1\nS: Q");
        var teller = new PlainTeller(rig.Stand);
        string told = string.Join('\n', teller.Tell());
        Assert.Contains("line 2 of 2", told, StringComparison.Ordinal);
        Assert.Contains("column 4", told, StringComparison.Ordinal);
        rig.Press("Up");
        Assert.Contains("P: B", string.Join('\n', teller.Tell()), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ab\ncd", "Down Home Backspace", "abcd", 0, 2)]
    [InlineData("ab\ncd", "End Delete", "abcd", 0, 2)]
    [InlineData("ab\ncd", "End Right x", "ab\nxcd", 1, 1)]
    [InlineData("ab\ncd", "Down Left x", "abx\ncd", 0, 3)]
    [InlineData("abc\nd", "End Down x", "abc\ndx", 1, 2)]
    [InlineData("ab", "Right Enter", "a\nb", 1, 0)]
    [InlineData("", "Backspace Delete Up Down Left Right", "", 0, 0)]
    public void The_page_is_edited_as_pages_are(string text, string keys, string expected, int line, int column)
    {
        var page = new TextPage(text, _ => null);
        foreach (string key in keys.Split(' '))
        {
            page.Press(key.Length == 1 ? key[0] : Enum.Parse<PressKind>(key));
        }

        Assert.Equal((expected, line, column), (page.Text, page.Line, page.Column));
    }

    [Fact]
    public void Own_passages_are_numbered_and_other_files_left_alone()
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-own-").FullName;
        var own = new OwnPassages(folder);
        Assert.Equal("own-1.txt", own.NewName());
        own.Keep("own-2.txt", "x");
        own.Keep("own-10.txt", "x");
        File.WriteAllText(Path.Combine(own.Folder, "own-notes.txt"), "x");
        Assert.Equal(["own-2.txt", "own-10.txt"], own.Names);
        Assert.Equal("own-11.txt", own.NewName());
        Assert.Throws<ArgumentException>(() => own.PathOf("../own-1.txt"));
        Directory.Delete(folder, recursive: true);
    }

    // Types over what stands on the page.
    private static void Type(StandRig rig, string text)
    {
        Clear(rig);
        foreach (char letter in text)
        {
            rig.Press(letter == '\n' ? "Enter" : letter.ToString());
        }
    }

    private static void Clear(StandRig rig)
    {
        TextPage page = Assert.IsType<PassagePageRoom>(rig.Stand.Top).Page;
        for (int i = 0; i < 20; i++)
        {
            rig.Press("Down");
        }

        rig.Press("End");
        while (page.Text.Length > 0)
        {
            rig.Press("Backspace");
        }
    }
}
