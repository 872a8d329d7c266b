using System.Text;
using BrassVox.Practice.Files;
using BrassVox.Practice.Scenes;
using BrassVox.Tests.Audio;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>Scenes as files: those that come with the program, those that are broken, the schema.</summary>
public sealed class SceneTests
{
    private const string Good = """
        {
          "formatVersion": 1,
          "id": "own",
          "number": 12,
          "name": "Own",
          "source": "A test.",
          "about": "Something to hear.",
          "pair": { "played": "F3", "sung": "C4", "tuning": "just" },
          "coupling": 0.5
        }
        """;

    [Fact]
    public void Nine_scenes_come_with_the_program_numbered_from_one_and_short_enough_for_one_row()
    {
        SceneLibrary library = SceneLibrary.Load(SceneLibrary.ShippedFolder);
        Assert.Empty(library.Problems);
        Assert.Equal(Enumerable.Range(1, 9), library.Scenes.Select(scene => scene.Number));
        Assert.All(library.Scenes, scene => Assert.InRange(scene.About.Length, 1, 79));
    }

    [Theory]
    [InlineData("\"coupling\": 0.5", "\"coupling\": 1.5", 9, "$.coupling", "from 0")]
    [InlineData("\"F3\"", "\"H3\"", 8, "$.pair.played", "no note name")]
    [InlineData("\"just\"", "\"jsut\"", 8, "$.pair.tuning", "no tuning")]
    [InlineData("\"id\": \"own\"", "\"id\": \"Own!\"", 3, "$.id", "a to z")]
    [InlineData("\"coupling\": 0.5", "\"coupling\": 0.5,\n  \"colour\": 3", 10, "$.colour", "colour")]
    [InlineData("\"coupling\": 0.5", "\"coupling\": 0.5,\n  \"only\": \"P*S\"", 10, "$.only", "no part")]
    [InlineData("\"coupling\": 0.5", "\"coupling\": 0.5,\n  \"muted\": [\n    \"S-P\",\n    \"Q\"\n  ]", 12, "$.muted[1]", "no part")]
    [InlineData("\"coupling\": 0.5", "\"coupling\": 0.5,\n  \"glide\": { \"role\": \"sung\", \"fromCents\": 100, \"seconds\": 0 }", 10, "$.glide.seconds", "0.5 to 120")]
    [InlineData("\"coupling\": 0.5", "\"coupling\": 0.5,\n  \"middle\": \"noise\"", 10, "$.middle", "beats")]
    [InlineData("\"coupling\": 0.5\n}", "\"coupling\": 0.5", 9, "$.coupling", "")]
    public void A_broken_scene_is_told_with_line_and_key(string good, string broken, long line, string place, string words)
    {
        FileLoad<Scene> load = SceneFile.Parse(Encoding.UTF8.GetBytes(Good.ReplaceLineEndings("\n").Replace(good, broken, StringComparison.Ordinal)), "own.json");
        Assert.Null(load.Value);
        Assert.Equal(line, load.Problem!.Line);
        Assert.Equal(place, load.Problem.JsonPath);
        Assert.Contains(words, load.Problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_broken_file_does_not_stop_the_others_and_an_own_one_replaces_a_shipped_one()
    {
        using var folder = new TestFolder();
        File.WriteAllText(Path.Combine(folder.Path, "a.json"), "{ broken");
        Scene own = SceneFile.Parse(Encoding.UTF8.GetBytes(Good), "own").Value! with { Id = "whole-tone", Number = 4 };
        SceneFile.Write(folder.Path, own);
        SceneLibrary library = SceneLibrary.Load(SceneLibrary.ShippedFolder, folder.Path);
        Assert.Single(library.Problems, problem => problem.File.EndsWith("a.json", StringComparison.Ordinal) && problem.Line == 1);
        Assert.Equal(9, library.Scenes.Count);
        Assert.Equal("Own", library.Scenes[3].Name);
        Assert.Equal(own.Pair, library.Scenes[3].Pair);
    }

    [Fact]
    public void The_schema_in_presets_is_the_one_that_the_types_give() =>
        Assert.Equal(File.ReadAllText(Path.Combine(Repository.Root, "presets", "schemas", "scene.schema.json")), SceneSchema.ToJson());
}
