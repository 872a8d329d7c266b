using System.Xml.Linq;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Architecture;

/// <summary>References between rooms run one way; each room sees only the packages of its duty.</summary>
public sealed class RoomTests
{
    private static readonly Dictionary<string, string[]> AllowedRooms = new()
    {
        ["Theory"] = [],
        ["Audio"] = [],
        ["Synthesis"] = ["Theory"],
        ["Analysis"] = ["Theory"],
        ["Practice"] = ["Theory", "Synthesis", "Analysis", "Audio"],
        ["Publishing"] = ["Theory", "Synthesis", "Analysis", "Practice", "Audio"],
        ["App"] = ["Theory", "Synthesis", "Analysis", "Practice", "Publishing", "Audio"],
    };

    private static readonly Dictionary<string, string[]> AllowedPackages = new()
    {
        ["Theory"] = [],
        ["Audio"] = ["NAudio.Core", "NAudio.Wasapi"],
        ["Synthesis"] = [],
        ["Analysis"] = ["MathNet.Numerics"],
        ["Practice"] = ["Microsoft.Data.Sqlite", "NAudio.Midi"],
        ["Publishing"] = ["Concentus", "NAudio.Midi", "ScottPlot"],
        ["App"] = ["System.CommandLine", "Terminal.Gui"],
    };

    public static TheoryData<string> Rooms => [.. AllowedRooms.Keys];

    [Fact]
    public void Every_folder_of_src_is_a_room_of_the_map() =>
        Assert.Equal(
            AllowedRooms.Keys.Order(StringComparer.Ordinal),
            Directory.GetDirectories(Path.Combine(Repository.Root, "src"))
                .Select(folder => Path.GetFileName(folder)["BrassVox.".Length..]).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_room_references_only_rooms_below_it(string room)
    {
        IEnumerable<string> referenced = References(room, "ProjectReference")
            .Select(path => Path.GetFileNameWithoutExtension(path.Replace('\\', '/'))["BrassVox.".Length..]);
        Assert.Empty(referenced.Except(AllowedRooms[room]));
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_room_sees_only_the_packages_of_its_duty(string room) =>
        Assert.Empty(References(room, "PackageReference").Except(AllowedPackages[room]));

    [Fact]
    public void The_map_itself_has_no_circle()
    {
        HashSet<string> built = [];
        while (built.Count < AllowedRooms.Count)
        {
            string[] ready = [.. AllowedRooms.Where(room => !built.Contains(room.Key) && room.Value.All(built.Contains)).Select(room => room.Key)];
            Assert.NotEmpty(ready);
            built.UnionWith(ready);
        }
    }

    [Fact]
    public void The_sound_library_stays_inside_the_audio_room()
    {
        XElement project = Project("Audio");
        Assert.All(
            project.Descendants("PackageReference").Where(package => ((string)package.Attribute("Include")!).StartsWith("NAudio", StringComparison.Ordinal)),
            package => Assert.Contains("compile", (string?)package.Attribute("PrivateAssets"), StringComparison.Ordinal));
    }

    private static IEnumerable<string> References(string room, string element) =>
        Project(room).Descendants(element).Select(item => (string)item.Attribute("Include")!);

    private static XElement Project(string room) =>
        XElement.Load(Path.Combine(Repository.Root, "src", $"BrassVox.{room}", $"BrassVox.{room}.csproj"));
}
