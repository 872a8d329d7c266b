using System.Text;
using BrassVox.Practice.Exercises;
using Xunit;

namespace BrassVox.Tests.Practice;

public sealed class ExerciseFileTests
{
    private static string Good { get; } = File.ReadAllText(Path.Combine(ExerciseLibrary.ShippedFolder, "14-open-home-pair.json"));

    [Theory]
    [InlineData("\"id\": \"open-home-pair\",", "", "$", "id")]
    [InlineData("\"name\": \"Open home pair\"", "\"nam\": \"Open home pair\"", "$.nam", "nam")]
    [InlineData("\"name\": \"Open home pair\"", "\"name\": null", "$.name", "null")]
    [InlineData("\"number\": 14", "\"number\": \"14\"", "$.number", "")]
    [InlineData("\"formatVersion\": 1", "\"formatVersion\": 2", "$.formatVersion", "version 1")]
    [InlineData("\"voice\": \"home\"", "\"voice\": \"house\"", "$.pair.voice", "")]
    [InlineData("\"kind\": \"arrival\"", "\"kind\": \"arival\"", "$.playAlong.steps[0].criteria[0]", "")]
    [InlineData("\"sung\": [{ \"move\": \"hold\", \"seconds\": 8 }]", "\"sung\": [{ \"move\": \"hold\", \"seconds\": 8, \"to\": \"P3\" }]", "$.playAlong.steps[0].sung[0].to", "interval")]
    [InlineData("\"sung\": [{ \"move\": \"hold\", \"seconds\": 8 }]", "\"sung\": [{ \"move\": \"hold\" }]", "$.playAlong.steps[0].sung[0]", "seconds")]
    [InlineData("\"sung\": [{ \"move\": \"hold\", \"seconds\": 8 }]", "\"sung\": [{ \"move\": \"hold\", \"beats\": 8 }]", "$.playAlong.steps[0].sung[0].beats", "tempoBpm")]
    [InlineData("\"sung\": [{ \"move\": \"hold\", \"seconds\": 8 }]", "\"sung\": [{ \"move\": \"glide\", \"seconds\": 8 }]", "$.playAlong.steps[0].sung[0]", "glide")]
    [InlineData("\"sung\": [{ \"move\": \"hold\", \"seconds\": 8 }]", "\"sung\": []", "$.playAlong.steps[0].criteria[1]", "does not ask for")]
    [InlineData("\"pass\": 3", "\"pass\": 5", "$.dose", "pass")]
    [InlineData("\"sung\": [{ \"move\": \"hold\", \"seconds\": 8 }]", "\"sung\": [{ \"move\": \"hold\", \"seconds\": 8 }, null]", "$.playAlong.steps[0].sung[1]", "null")]
    [InlineData("\"pass\": 3", "\"pass\": 3, \"\\u001b\": 1", "$.dose.?", "not known")]
    [InlineData("\"III\": 10", "\"IV\": 10", "$.playAlong.steps[0].criteria[2].limitCents.IV", "IV")]
    public void A_broken_file_is_refused_with_place_line_and_reason(string was, string now, string place, string reason)
    {
        int at = Good.IndexOf(was, StringComparison.Ordinal);
        Assert.True(at >= 0, "the shipped file no longer holds what this test breaks");
        string broken = Good[..at] + now + Good[(at + was.Length)..];
        ExerciseLoad load = ExerciseFile.Parse(Encoding.UTF8.GetBytes(broken), "own.json");

        Assert.Null(load.Exercise);
        Assert.Equal(place, load.Problem!.JsonPath);
        Assert.Contains(reason, load.Problem.Message, StringComparison.Ordinal);
        Assert.StartsWith("own.json, line ", load.Problem.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("member", load.Problem.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("BrassVox.", load.Problem.Message, StringComparison.Ordinal);

        // The line where the fault was put, or (for what the reader only notices at its end) within the same object.
        int line = 1 + Good[..at].Count(c => c == '\n');
        if (now.Length > 0)
        {
            Assert.InRange(load.Problem.Line, line - 12, line + 12);
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{")]
    [InlineData("{}")]
    [InlineData("\"text\"")]
    [InlineData("{\"formatVersion\":1e999}")]
    public void What_is_no_exercise_is_refused_without_an_exception(string text)
    {
        ExerciseLoad load = ExerciseFile.Parse(Encoding.UTF8.GetBytes(text), "own.json");
        Assert.Null(load.Exercise);
        Assert.NotNull(load.Problem);
    }

    [Fact]
    public void A_deep_or_random_text_is_refused_without_an_exception()
    {
        const int seed = 7;
        Random random = new(seed);
        byte[] good = Encoding.UTF8.GetBytes(Good);
        for (int i = 0; i < 500; i++)
        {
            byte[] bytes = [.. good];
            for (int k = 0; k < 4; k++)
            {
                bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
            }

            ExerciseLoad load = ExerciseFile.Parse(bytes.AsSpan(0, random.Next(bytes.Length + 1)), "own.json");
            Assert.True(load.Exercise is null != load.Problem is null, $"seed {seed}, round {i}");
        }

        byte[] deep = Encoding.UTF8.GetBytes(new string('[', 100_000));
        Assert.NotNull(ExerciseFile.Parse(deep, "deep.json").Problem);
    }

    [Fact]
    public void A_missing_file_is_a_problem_and_a_missing_folder_is_empty()
    {
        Assert.NotNull(ExerciseFile.Read(Path.Combine(AppContext.BaseDirectory, "no-such.json")).Problem);
        Assert.Empty(ExerciseLibrary.Load([Path.Combine(AppContext.BaseDirectory, "no-such-folder")]).Exercises);
    }

    [Fact]
    public void Exercises_are_found_by_id_in_any_case_and_by_number()
    {
        Assert.Equal(14, ShippedExercises.Library.Find("OPEN-HOME-PAIR")!.Number);
        Assert.Equal("open-home-pair", ShippedExercises.Library.Find("14")!.Id);
        Assert.Null(ShippedExercises.Library.Find("no-such"));
        Assert.Null(ShippedExercises.Library.Find("-14"));
    }
}
