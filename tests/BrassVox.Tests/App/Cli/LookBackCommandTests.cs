using System.Text.Json;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Tests.Practice;
using BrassVox.Tests.Practice.Log;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>takes, plan and profile as a shell runs them.</summary>
public sealed class LookBackCommandTests : IDisposable
{
    private readonly LogRig _rig = new();

    public void Dispose() => _rig.Dispose();

    [Fact]
    public void Takes_are_noted_mapped_carried_and_deleted_and_the_plan_follows_them()
    {
        TakeRecord kept = new TakeStore(_rig.Folder, TimeProvider.System).Keep(LogRig.Judged(sung: new SimulatedTone { OffsetCents = 22 }), null).Record!;
        Run("profile set --instrument trombone --register-change Bb3 --note-names german");
        Assert.Contains("noted lips, between takes: takes list shows it; --take last names the newest take", Run("takes note lips").Errors, StringComparison.Ordinal);
        Assert.Contains("noted throat, tongue root of " + kept.Id, Run("takes note throat tongue-root --take last").Errors, StringComparison.Ordinal);
        Assert.Contains("fifth       22 o (1)", Run("takes map").Output, StringComparison.Ordinal);
        Assert.Contains("B2-E3", Run("takes map").Output, StringComparison.Ordinal);
        using (JsonDocument list = JsonDocument.Parse(Run("takes list --json").Output))
        {
            Assert.Equal(22, list.RootElement[0].GetProperty("sungOffsetCents").GetDouble(), 1.0);
            Assert.Equal("tongue root", list.RootElement[0].GetProperty("body")[1].GetString());
        }

        using (JsonDocument plan = JsonDocument.Parse(Run("plan --minutes 20 --json").Output))
        {
            Assert.Equal(20, plan.RootElement.GetProperty("lines").EnumerateArray().Sum(line => line.GetProperty("minutes").GetInt32()));
        }

        Assert.Contains("20 min a day", Run("plan").Output, StringComparison.Ordinal);
        string file = Path.Combine(_rig.Folder, "log.csv");
        Run($"takes export {file}");
        Assert.Equal(0, Run($"takes delete {kept.Id}").ExitCode);
        Assert.Empty(Directory.GetFiles(Path.Combine(_rig.Folder, "takes")));
        Assert.Equal(0, _rig.Log.CountTakes());
        Assert.Contains("1 of 1 takes were new", Run($"takes import {file}").Errors, StringComparison.Ordinal);
        Assert.Equal(1, _rig.Log.CountTakes());
    }

    [Fact]
    public void A_note_between_takes_is_listed_carried_and_deleted_by_its_own_id()
    {
        Run("takes note lips");
        string id = Assert.Single(_rig.Log.BodyNotes(TakeFilter.All)).Id;
        Assert.Matches(@"note-\S+-lips +between takes +lips", Run("takes list").Output);
        using (JsonDocument list = JsonDocument.Parse(Run("takes list --json").Output))
        {
            Assert.Equal(id, Assert.Single(list.RootElement.EnumerateArray()).GetProperty("id").GetString());
        }

        string file = Path.Combine(_rig.Folder, "log.csv");
        Run($"takes export {file}");
        Assert.Contains("one body note deleted for good", Run($"takes delete {id}").Errors, StringComparison.Ordinal);
        Assert.Empty(_rig.Log.BodyNotes(TakeFilter.All));
        Assert.Contains($"there is no take \"{id}\"", Run($"takes delete {id}").Errors, StringComparison.Ordinal);
        Run($"takes import {file}");
        Assert.Equal(id, Assert.Single(_rig.Log.BodyNotes(TakeFilter.All)).Id);
    }

    /// <summary>A take of a passage is kept for who plays, on their instrument, as one of an exercise is.</summary>
    [Fact]
    public void A_passage_is_kept_for_the_player_at_hand()
    {
        Run("profile set Euphonium-3 --instrument euphonium --voice low");
        string sound = Path.Combine(_rig.Folder, "passage.wav");
        Assert.Equal(0, Run($"passage render two-breaths-one-pipe --to 1 --coupling 0 --output {sound}").ExitCode);
        CommandLineResult run = Run($"passage run two-breaths-one-pipe --to 1 --input {sound} --keep");
        Assert.True(run.ExitCode == 0, run.Errors);
        using JsonDocument list = JsonDocument.Parse(Run("takes list --json").Output);
        Assert.Single(list.RootElement.EnumerateArray());
        LoggedTake take = Assert.Single(new TakeStore(_rig.Folder, TimeProvider.System).List(new TakeFilter("Euphonium-3")).Takes);
        Assert.Equal(Instrument.Euphonium, take.Take.Player.Instrument);
    }

    [Fact]
    public void The_map_says_how_many_takes_were_not_judged_and_why()
    {
        TakeRecord take = LogRig.Record("a", LogRig.Monday);
        _rig.Log.Enter(take, take with { Id = "b", Result = take.Result with { AsAsked = null, Reached = null, Pair = take.Result.Pair with { FogSeconds = 7, SeparableSeconds = 0 } } });
        string map = Run("takes map").Output;
        Assert.Contains("1 more take could not be judged, neither for nor against you:\n  1 lay in fog, the two tones too near each other to be told apart", map.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Contains("not judged: in fog", Run("takes list").Output, StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(Run("takes map --json").Output);
        Assert.Equal(1, json.RootElement.GetProperty("notJudged").GetInt32());
        Assert.Equal("fog", json.RootElement.GetProperty("leftOut")[0].GetProperty("why").GetString());
    }

    [Fact]
    public void Takes_of_passages_are_listed_and_counted_apart_from_the_map()
    {
        _rig.Log.Enter(LogRig.Record("a", LogRig.Monday), LogRig.Record("b", LogRig.Monday) with { ExerciseId = "passage-own", ExerciseName = "Own", ExerciseNumber = 0 });
        Assert.Contains("2 takes", Run("takes list").Output, StringComparison.Ordinal);
        string map = Run("takes map").Output;
        Assert.Contains("1 take, 1 more of passages, many pairs each, not in the map", map, StringComparison.Ordinal);
        Assert.Matches(@"fifth +\d+ \w \(1\)", map);
    }

    /// <summary>With several players a take is kept for whom it is said to be, and that is said.</summary>
    [Fact]
    public void A_take_goes_to_the_player_who_is_named()
    {
        Run("profile set Carla --instrument trombone --voice low");
        Run("profile set Ben --instrument tuba --voice low");
        Run("profile use Ben");
        string sound = Path.Combine(_rig.Folder, "take.wav");
        Assert.Equal(0, Run($"render Bb2 F3 --seconds 9 --tuning just --output {sound}").ExitCode);
        Assert.Contains(" for Carla in ", Run($"exercise run 14 --player Carla --input {sound} --keep").Errors, StringComparison.Ordinal);
        Assert.Contains("Bb2 played (116.54 Hz)", Run("exercise show 14 --player Carla").Output, StringComparison.Ordinal);
        Assert.Contains("Bb1 played (58.27 Hz)", Run("exercise show 14").Output, StringComparison.Ordinal);
        var store = new TakeStore(_rig.Folder, TimeProvider.System);
        Assert.Single(store.List(new TakeFilter("Carla")).Takes);
        Assert.Empty(store.List(new TakeFilter("Ben")).Takes);
        Assert.Equal((2, true), Refused($"exercise run 14 --player Dora --input {sound}", "no player \"Dora\""));
        Assert.Equal((2, true), Refused("passage show two-breaths-one-pipe --player Dora", "no player \"Dora\""));

        // Carried to another folder they are there, and whose they are is said.
        string log = Path.Combine(_rig.Folder, "log.json");
        Run($"takes export {log}");
        string other = Path.Combine(_rig.Folder, "other");
        Assert.Contains("brassvox profile set \"Carla\" keeps one", Run($"takes import {log} --data {other}").Errors, StringComparison.Ordinal);
        Run($"profile set Carla --data {other}");
        Assert.DoesNotContain("keeps one", Run($"takes import {log} --data {other}").Errors, StringComparison.Ordinal);
    }

    /// <summary>Horn and trumpet parts are usually transposed, others not; who says otherwise reads otherwise. Common practice, no source.</summary>
    [Fact]
    public void A_part_is_written_as_its_player_reads()
    {
        string score = Path.Combine(_rig.Folder, "pair.musicxml");
        foreach ((string set, bool isTransposed) in new[]
        {
            ("--instrument trumpet", true), ("--reads-transposed false", false), ("--instrument trombone", false), ("--reads-transposed true", true), ("--a4 442", true), ("--instrument tuba", false), ("--instrument horn", true),
        })
        {
            Assert.Equal(0, Run($"profile set Cornelia {set}").ExitCode);
            Run("profile use Cornelia");
            Assert.Equal(0, Run($"notation 14 --output {score}").ExitCode);
            Assert.Equal(isTransposed, File.ReadAllText(score).Contains("<transpose>", StringComparison.Ordinal));
        }
    }

    /// <summary>A horn in F sounds a fifth, 7 semitones, below what is written: common practice, no source.</summary>
    [Fact]
    public void A_player_of_the_invented_ensemble_gets_notes_as_its_handout_does()
    {
        string demo = Path.Combine(_rig.Folder, "demo");
        Assert.Equal(0, Run($"profile set Horn-4 --instrument horn --voice high --data {demo}").ExitCode);
        string score = Path.Combine(_rig.Folder, "pair.musicxml");
        Assert.Equal(2, Run($"notation 14 --player Horn-4 --output {score}").ExitCode);
        Assert.Equal(0, Run($"notation 14 --demo --player Horn-4 --output {score}").ExitCode);
        Assert.Contains("<chromatic>-7</chromatic>", File.ReadAllText(score), StringComparison.Ordinal);
    }

    [Fact]
    public void What_cannot_be_done_is_one_clear_line()
    {
        Assert.Equal((2, true), Refused("takes note elbow", "no body tag"));
        Assert.Equal((2, true), Refused("takes delete nothing", "no take"));
        Assert.Equal((3, true), Refused("takes import missing.json", "does not exist"));
        Assert.Equal((2, true), Refused("takes map --player Nobody", "no player"));
        Assert.Equal((2, true), Refused("plan --minutes 3", "5 to 60"));
        Assert.Equal((2, true), Refused("section Bb2", "a section has 2 to 5 players"));
        Assert.Equal((2, true), Refused("section Bb1 F2 Bb2 D3 F3 A3", "6 were given"));
        Assert.Equal((2, true), Refused("section", "0 were given"));
        File.WriteAllText(_rig.Log.Path, new string('x', 4096));
        Assert.Equal((5, true), Refused("plan", "not a log of BrassVox"));
    }

    private (int ExitCode, bool OneLine) Refused(string line, string said)
    {
        CommandLineResult result = Run(line);
        Assert.Contains(said, result.Errors, StringComparison.Ordinal);
        return (result.ExitCode, result.Errors.Trim().Split('\n').Length <= 2 && result.Output.Length == 0);
    }

    private CommandLineResult Run(string line) => CommandLine.Run(line.Split(' '), new Dictionary<string, string> { ["BRASSVOX_DATA"] = _rig.Folder });
}
