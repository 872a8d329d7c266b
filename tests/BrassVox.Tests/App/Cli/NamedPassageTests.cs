using BrassVox.App.Cli;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using Xunit;

namespace BrassVox.Tests.App.Cli;

/// <summary>One way from a name to a passage, for all commands. No outside source: our own rule.</summary>
public sealed class NamedPassageTests : IDisposable
{
    private static readonly PlayerProfile Player = PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low);

    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-named-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void An_own_passage_is_found_by_its_plain_name_and_never_in_place_of_a_shipped_one()
    {
        string shipped = File.ReadAllText(ShippedPassages.PathOf(ShippedPassages.First, VoiceKind.Low));
        string own = shipped.Replace("Two Breaths", "Ten Breaths", StringComparison.Ordinal);
        Directory.CreateDirectory(new OwnPassages(_folder).Folder);
        foreach (string name in new[] { "ten-breaths", ShippedPassages.First })
        {
            File.WriteAllText(Path.Combine(new OwnPassages(_folder).Folder, name + ".txt"), own);
        }

        Assert.StartsWith("Ten Breaths", NamedPassage.Read("ten-breaths", _folder, Player)!.Passage!.Title, StringComparison.Ordinal);
        Assert.StartsWith("Two Breaths", NamedPassage.Read(ShippedPassages.First, _folder, Player)!.Passage!.Title, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("none-such")]
    [InlineData("")]
    public void Nothing_has_a_plain_name_that_is_not_there(string name) => Assert.Null(NamedPassage.Read(name, _folder, Player));

    [Fact]
    public void A_file_that_is_not_there_is_a_fault_of_the_file()
    {
        PassageLoad load = NamedPassage.Read("none-such.txt", _folder, Player)!;
        Assert.Null(load.Passage);
        Assert.Contains("none-such.txt", load.Problem!.ToString(), StringComparison.Ordinal);
    }
}
