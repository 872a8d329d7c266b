using System.Text.Json;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

public sealed class ResultantsCommandTests
{
    [Fact]
    public void The_json_holds_components_and_beats_of_the_worked_example()
    {
        CommandLineResult run = CommandLine.Run("resultants Bb1 F2 --json");
        Assert.Equal((0, string.Empty), (run.ExitCode, run.Errors));
        JsonElement report = JsonDocument.Parse(run.Output).RootElement;

        JsonElement difference = Component(report, -1, 1);
        Assert.Equal(29.0367, difference.GetProperty("frequencyHz").GetDouble(), 1e-3);
        Assert.Equal("Bb0", difference.GetProperty("note").GetString());
        Assert.Equal(-5.9, difference.GetProperty("cents").GetDouble(), 0.06);
        Assert.Equal(2, difference.GetProperty("order").GetInt32());
        Assert.Equal(145.5776, Component(report, 1, 1).GetProperty("frequencyHz").GetDouble(), 1e-3);
        Assert.Equal(0.1973, Beat(report, 3, 2), 1e-4);
    }

    [Fact]
    public void What_is_refused_is_told_without_its_control_characters()
    {
        CommandLineResult run = CommandLine.Run(["resultants", "\u001b[2J", "F2"]);
        Assert.Equal(2, run.ExitCode);
        Assert.StartsWith("brassvox: \"?[2J\" is not a note", run.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public void A_just_fifth_does_not_beat()
    {
        CommandLineResult run = CommandLine.Run("resultants Bb1 F2 --tuning just --json");
        Assert.Equal(0.0, Beat(JsonDocument.Parse(run.Output).RootElement, 3, 2));
    }

    [Fact]
    public void A_note_keeps_the_spelling_it_was_asked_in()
    {
        CommandLineResult run = CommandLine.Run("resultants Bb1 F#2 --json");
        JsonElement report = JsonDocument.Parse(run.Output).RootElement;
        Assert.Equal("F#2", Component(report, 0, 1).GetProperty("note").GetString());
        Assert.Equal("F#3", Component(report, 0, 2).GetProperty("note").GetString());
        Assert.Equal("Bb2", Component(report, 2, 0).GetProperty("note").GetString());
    }

    [Fact]
    public void Another_A4_moves_all_lines()
    {
        CommandLineResult run = CommandLine.Run("resultants Bb1 F2 --a4 442 --json");
        double hz = Component(JsonDocument.Parse(run.Output).RootElement, -1, 1).GetProperty("frequencyHz").GetDouble();
        Assert.Equal(29.0367 * 442 / 440, hz, 1e-3);
    }

    [Theory]
    [InlineData("resultants Bb1 H2", "\"H2\" is not a note")]
    [InlineData("resultants Bb1", "resultants")]
    [InlineData("resultants Bb1 F2 --a4 442,5", "full stop")]
    [InlineData("resultants Bb1 F2 --a4 4425", "400 to 480")]
    [InlineData("resultants Bb1 F2 --order 99", "1 to 12")]
    [InlineData("resultants Bb1 F2 --tuning fair", "--tuning takes equal")]
    [InlineData("resonances Bb1 F2", "resonances")]
    [InlineData("[suggest:0] [suggest:0] resultants Bb1 F2", "one at a time")]
    public void A_bad_command_line_says_what_and_ends_with_2(string line, string says)
    {
        CommandLineResult run = CommandLine.Run(line);
        Assert.Equal(2, run.ExitCode);
        Assert.Contains(says, run.Errors, StringComparison.Ordinal);
        Assert.Equal(string.Empty, run.Output);
        Assert.DoesNotContain("   at ", run.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de_DE.UTF-8")]
    [InlineData("tr_TR.UTF-8")]
    [InlineData("th_TH.UTF-8")]
    public void Machine_output_is_the_same_in_every_culture(string culture)
    {
        string[] arguments = ["resultants", "Bb1", "F2", "--a4", "442.5", "--tuning", "EQUAL", "--json"];
        CommandLineResult here = CommandLine.Run(arguments, new Dictionary<string, string> { ["LC_ALL"] = "C.UTF-8" });
        CommandLineResult there = CommandLine.Run(arguments, new Dictionary<string, string> { ["LC_ALL"] = culture });
        Assert.Equal(0, there.ExitCode);
        Assert.Equal(here.Output, there.Output);
    }

    private static JsonElement Component(JsonElement report, int played, int sung) =>
        report.GetProperty("components").EnumerateArray().Single(line =>
            line.GetProperty("played").GetInt32() == played && line.GetProperty("sung").GetInt32() == sung);

    private static double Beat(JsonElement report, int played, int sung) =>
        report.GetProperty("beats").EnumerateArray().Single(pair =>
            pair.GetProperty("playedHarmonic").GetInt32() == played && pair.GetProperty("sungHarmonic").GetInt32() == sung)
            .GetProperty("rateHz").GetDouble();
}
