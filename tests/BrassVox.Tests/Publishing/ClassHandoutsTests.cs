using System.Text.RegularExpressions;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Handouts;
using BrassVox.Publishing.Notation;
using BrassVox.Synthesis;
using BrassVox.Tests.Support;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Publishing;

public sealed class ClassHandoutsTests : IDisposable
{
    private static readonly TonePresets Tones = TonePresets.Load(Path.Combine(Repository.Root, "presets", "tones"));
    private static readonly ExerciseLibrary Exercises = ExerciseLibrary.Load(Path.Combine(Repository.Root, "presets", "exercises"));
    private static readonly PlayerProfile Tuba = PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low);
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-class-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void What_students_share_is_made_once_and_each_file_is_as_if_made_alone()
    {
        ClassMember[] members = [Member(new Player("Tuba-1", Tuba)), Member(new Player("Tuba-2", Tuba)), Member(new Player("Tuba-3", Tuba, NoteNaming.German))];
        List<ClassProgress> told = [];
        Handouts(workers: 2).Write(members, "A sheet", _folder, told.Add, TestContext.Current.CancellationToken);

        Assert.Equal(4, told[^1].Sheets);
        Assert.Equal(4, told[^1].SheetsMade);
        Assert.Equal(2, told[^1].SoundsMade); // note names are not heard
        Assert.Equal(3, told.Count(progress => progress.Written is not null));
        Assert.Equal(["Tuba-1.html", "Tuba-2.html", "Tuba-3.html"], Directory.EnumerateFileSystemEntries(_folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        string first = Read("Tuba-1");
        Assert.Equal(first, Read("Tuba-2").Replace("Tuba-2", "Tuba-1", StringComparison.Ordinal));
        Assert.Contains("B1 played", Read("Tuba-3"), StringComparison.Ordinal);
        Assert.Contains("Bb1 played", first, StringComparison.Ordinal);

        HandoutItem[] alone = [.. members[0].Sheets.Select(sheet => new HandoutItem(sheet.Resolved, HandoutSound.Of(sheet.Resolved, Engine(Instrument.Tuba, VoiceKind.Low)), NoEngraver.Engrave(sheet.ScoreFor(members[0].Player))))];
        Assert.Equal(WithoutPictures(Handout.Html(members[0].Player, alone, "A sheet")), WithoutPictures(first));
    }

    [Fact]
    public void Sounds_are_the_same_only_where_what_sounds_is()
    {
        Player player = new("Tuba-1", Tuba);
        string Key(string id, PlayerProfile profile) => HandoutSound.KeyOf(Sheet(id, new Player("", profile)).Resolved, Engine(Instrument.Tuba, VoiceKind.Low));
        string key = Key("open-home-pair", Tuba);
        Assert.Equal(key, Key("open-home-pair", Tuba with { Aim = Grade.III, RegisterChange = Pitch.Parse("C4") }));
        string[] others =
        [
            Key("alternate", Tuba), Key("open-home-pair", Tuba with { A4Hz = 442 }), Key("open-home-pair", Tuba with { TuningName = "equal" }),
            Key("open-home-pair", PlayerProfile.Usual(Instrument.Tuba, VoiceKind.High)),
            HandoutSound.KeyOf(new TakeOptions(TempoPercent: 90).Apply(Sheet("alternate", player).Resolved), Engine(Instrument.Tuba, VoiceKind.Low)),
        ];
        Assert.Equal(others.Length, others.Distinct().Count());
        Assert.DoesNotContain(key, others);
    }

    [Fact]
    public void Ended_early_it_leaves_whole_files_and_nothing_else()
    {
        using var end = new CancellationTokenSource();
        ClassMember[] members = [.. Enumerable.Range(1, 4).Select(i => Member(new Player($"Tuba-{i}", Tuba with { A4Hz = 440 + i })))];
        Assert.Throws<OperationCanceledException>(() => Handouts(workers: 1).Write(
            members,
            "A sheet",
            _folder,
            progress =>
            {
                if (progress.Written is not null)
                {
                    end.Cancel();
                }
            },
            end.Token));
        string left = Assert.Single(Directory.EnumerateFileSystemEntries(_folder));
        Assert.EndsWith("</html>\n", File.ReadAllText(left), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Ended_early_it_ends_its_engraver_too()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "The engraver that never ends is a shell script.");
        string pid = Path.Combine(_folder, "pid");
        string engraver = Path.Combine(_folder, "engraver");
        File.WriteAllText(engraver, $"#!/bin/sh\necho $$ >'{pid}.new'\nmv '{pid}.new' '{pid}'\nexec sleep 600\n");
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(engraver, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        }

        using var end = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        string sheets = Path.Combine(_folder, "sheets");
        var writing = Task.Run(() => new ClassHandouts(Engine, new Engraver(engraver), 2).Write([Member(new Player("Tuba-1", Tuba))], "A sheet", sheets, _ => { }, end.Token), TestContext.Current.CancellationToken);
        while (!File.Exists(pid))
        {
            Assert.False(writing.IsCompleted);
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        var running = System.Diagnostics.Process.GetProcessById(int.Parse(File.ReadAllText(pid), System.Globalization.CultureInfo.InvariantCulture));
        await end.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => writing);
        Assert.True(running.WaitForExit(TimeSpan.FromSeconds(5)));
        Assert.Empty(Directory.EnumerateFileSystemEntries(sheets));
    }

    [Fact]
    public void A_folder_that_is_a_file_is_an_error_of_writing()
    {
        string file = Path.Combine(_folder, "taken");
        File.WriteAllText(file, "here");
        Assert.Throws<IOException>(() => Handouts(workers: 2).Write([Member(new Player("Tuba-1", Tuba))], "A sheet", file, _ => { }, TestContext.Current.CancellationToken));
        Assert.Equal("here", File.ReadAllText(file));
    }

    private static Engraver NoEngraver { get; } = new("no-such-engraver");

    private static ClassHandouts Handouts(int workers) => new(Engine, NoEngraver, workers);

    private static FlowPair Engine(Instrument instrument, VoiceKind voice) => new(Tones.BrassById("tuba"), Tones.VoiceById("bass"), 1);

    private static ClassMember Member(Player player) => new(player, [Sheet("open-home-pair", player), Sheet("alternate", player)]);

    private static SheetItem Sheet(string id, Player player) => new(id, ExerciseResolver.Resolve(Exercises.Find(id)!, player.Profile).Resolved!);

    // The library that draws numbers its clip paths through the whole process.
    private static string WithoutPictures(string html) => Regex.Replace(html, "image/svg\\+xml;base64,[A-Za-z0-9+/=]+", "picture");

    private string Read(string name) => File.ReadAllText(Path.Combine(_folder, name + ".html"));
}
