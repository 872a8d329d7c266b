using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Practice.Profiles;

public sealed class PlayerFilesTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-players-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_studio_of_players_is_kept_and_one_of_them_practises()
    {
        var files = new PlayerFiles(_folder);
        Assert.Null(files.Current());
        Player horn = new(
            "Horn 4", PlayerProfile.Usual(Instrument.Horn, VoiceKind.High) with { A4Hz = 442.5, RegisterChange = Pitch.Parse("A4"), Aim = Grade.III, TuningName = "meantone" },
            NoteNaming.German, ReadsTransposed: true, DisplayUnit.Beats);
        files.Write(Player.Usual);
        files.Write(horn);
        Assert.Equal("", files.Current()!.Name);
        files.Choose("Horn 4");
        Assert.Equal(["", "Horn 4"], files.Names);
        Assert.Equal(horn, new PlayerFiles(_folder).Current());
        Assert.True(files.Remove("Horn 4"));
        Assert.Equal("", files.CurrentName);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Path.Combine(_folder, "players", "_.json")));
        }
    }

    [Theory]
    [InlineData("../evil")]
    [InlineData("a/b")]
    [InlineData(" lead")]
    [InlineData("_")]
    [InlineData("trail ")]
    public void Names_that_are_paths_are_refused(string name)
    {
        Assert.False(Player.IsName(name));
        Assert.Throws<ArgumentException>(() => new PlayerFiles(_folder).Write(Player.Usual with { Name = name }));
    }

    [Theory]
    [InlineData("\"a4Hz\": 440", "\"a4Hz\": 4400", "a4Hz")]
    [InlineData("\"tuningName\": \"just\"", "\"tuningName\": \"sour\"", "tuningName")]
    [InlineData("\"lowestSung\": \"F2\"", "\"lowestSung\": \"F9\"", "lowestSung")]
    [InlineData("\"instrument\": \"tuba\"", "\"instrument\": \"kazoo\"", "line 4")]
    public void A_broken_file_is_named_with_what_is_wrong(string good, string bad, string said)
    {
        var files = new PlayerFiles(_folder);
        files.Write(Player.Usual);
        string path = Path.Combine(_folder, "players", "_.json");
        string text = File.ReadAllText(path);
        Assert.Contains(good, text, StringComparison.Ordinal);
        File.WriteAllText(path, text.Replace(good, bad, StringComparison.Ordinal));
        string message = Assert.Throws<InvalidDataException>(files.Current).Message;
        Assert.Contains(path, message, StringComparison.Ordinal);
        Assert.Contains(said, message, StringComparison.Ordinal);
    }

    /// <summary>Source: ISO 16:1975 gives A4 = 440 Hz; equal temperament puts Bb2 at 116.541 Hz then (any table of equal temperament).</summary>
    [Theory]
    [InlineData("Bb2", 116.541, 440)]
    [InlineData("Bb2", 109.919, 415)]
    [InlineData("A4", 466, 466)]
    [InlineData("F3", 175.408, 442)]
    public void A4_is_taken_from_a_played_note(string note, double hz, double a4) => Assert.Equal(a4, TuningNote.A4Hz(Pitch.Parse(note), hz), 0.05);
}
