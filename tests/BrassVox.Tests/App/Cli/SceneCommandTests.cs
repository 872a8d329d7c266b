using System.Text.Json;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.App.Cli;

public sealed class SceneCommandTests
{
    [Fact]
    public void Scenes_are_listed_for_people_and_for_machines()
    {
        string[] lines = CommandLine.Run("scene list").Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        JsonElement[] scenes = [.. JsonDocument.Parse(CommandLine.Run("scene list --json").Output).RootElement.EnumerateArray()];
        Assert.Equal(lines.Length, scenes.Length);
        Assert.All(scenes.Zip(lines), both =>
        {
            Assert.StartsWith($"{both.First.GetProperty("number").GetInt32(),2}  {both.First.GetProperty("name").GetString()} ", both.Second, StringComparison.Ordinal);
            Assert.Contains($"{both.First.GetProperty("played").GetString()} + {both.First.GetProperty("sung").GetString()}, {both.First.GetProperty("tuning").GetString()}", both.Second, StringComparison.Ordinal);
            Assert.Equal(both.Second.EndsWith(", separate", StringComparison.Ordinal), both.First.GetProperty("coupling").GetDouble() == 0);
        });
    }
}
