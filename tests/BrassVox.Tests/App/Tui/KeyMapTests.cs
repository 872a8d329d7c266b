using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Rooms;
using BrassVox.Practice.Files;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>Letters of one's own in keys.json.</summary>
public sealed class KeyMapTests
{
    [Fact]
    public void Statement_5_every_meaning_has_one_letter_and_every_letter_one_meaning()
    {
        Assert.Equal(Letters.All.Count, Letters.All.Select(item => item.Usual).Distinct().Count());
        Assert.Equal(Letters.All.Count, Letters.All.Select(item => item.Id).Distinct().Count());
    }

    [Theory]
    [InlineData("\"panel\": \"g\"", 4, "$.letters.panel", "g is given twice")]
    [InlineData("\"panel\": \";\",\n    \"glide\": \";\"", 5, "$.letters.glide", "; is given twice")]
    [InlineData("\"pannel\": \"y\"", 4, "$.letters.pannel", "no meaning")]
    [InlineData("\"panel\": \"yy\"", 4, "$.letters.panel", "one letter")]
    [InlineData("\"panel\": \"3\"", 4, "$.letters.panel", "digits")]
    [InlineData("\"panel\": null", 4, "$.letters.panel", "one letter")]
    [InlineData("\"panel\": 3", 4, "$.letters.panel", "")]
    public void A_fault_is_refused_with_its_line_and_the_usual_letters_hold(string line, long at, string place, string words)
    {
        string folder = Directory.CreateTempSubdirectory("brassvox-keys-").FullName;
        File.WriteAllText(Path.Combine(folder, KeyMap.FileName), $"{{\n  \"formatVersion\": 1,\n  \"letters\": {{\n    {line}\n  }}\n}}\n");
        (KeyMap map, FileProblem? problem) = KeyMap.Load(folder);
        Assert.True(map.IsUsual);
        Assert.Equal(at, problem!.Line);
        Assert.Equal(place, problem.JsonPath);
        Assert.Contains(words, problem.Message, StringComparison.Ordinal);
        using var rig = new StandRig(dataFolder: folder);
        Assert.Contains($"keys.json, line {at}", rig.Stand.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_letters_change_places_and_every_screen_names_them_so()
    {
        using StandRig first = StandTests.At("");
        File.WriteAllText(Path.Combine(first.Folder, KeyMap.FileName), "{ \"formatVersion\": 1, \"letters\": { \"couple\": \"e\", \"tuning\": \"c\", \"keys\": \";\" } }");
        using var rig = new StandRig(dataFolder: first.Folder);
        rig.Press("1", "c");
        Assert.Contains("just A4 440", rig.Canvas().Row(0), StringComparison.Ordinal);
        Assert.EndsWith("; keys", rig.Canvas().Row(23), StringComparison.Ordinal);
        Assert.Contains("5 c", rig.Canvas().Row(23), StringComparison.Ordinal);
        rig.Press("h");
        Assert.Equal("h means nothing in any room; ; lists the keys.", rig.Stand.Message);
        rig.Press(";");
        Assert.IsType<KeysRoom>(rig.Stand.Top);
        Assert.Matches(" e +coupled 0 30 60 100", rig.Screen());
    }

    [Fact]
    public void A_word_that_no_key_does_is_answered_with_the_nearest()
    {
        using StandRig rig = StandTests.At("1 h Tab");
        ExploreTests.Type(rig, "fraeze");
        rig.Press("Enter");
        Assert.Contains("Nearest: freeze", rig.Screen(), StringComparison.Ordinal);
    }
}
