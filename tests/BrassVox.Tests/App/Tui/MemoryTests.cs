using System.Globalization;
using BrassVox.App.Tui.Sound;
using BrassVox.App.Tui.Terminal;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.App.Tui;

/// <summary>What is remembered from one run to the next, and what happens to a file that cannot be read.</summary>
public sealed class MemoryTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-memory-").FullName;

    private string FilePath => Path.Combine(_folder, "stand.json");

    [Fact]
    public void What_was_changed_is_there_again()
    {
        Memory first = Memory.Load(_folder);
        Assert.True(first.IsFirstRun);
        first.Change(now => now with
        {
            Profile = PlayerProfile.Usual(Instrument.Horn, VoiceKind.High) with { A4Hz = 442 },
            Naming = NoteNaming.German,
            ReadsTransposed = true,
            Pair = new PairSetting(Pitch.Parse("F3"), Pitch.Parse("C5"), "just", 442, 0.3, -2.5, 8),
            LevelDb = -27,
            Theme = "light",
            InputDevice = "hw:1",
        });
        first.EndFirstRun();
        first.Save();
        Memory later = Memory.Load(_folder);
        Assert.False(later.IsFirstRun);
        Assert.Equal(first.Now, later.Now);
        Assert.Empty(Directory.EnumerateFiles(_folder, "*.part"));
    }

    [Fact]
    public void The_file_has_the_same_bytes_in_every_culture()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            List<string> files = [];
            foreach (string culture in new[] { "", "de-DE", "tr-TR", "ar-SA", "th-TH" })
            {
                CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
                Memory memory = Memory.Load(_folder);
                memory.Change(now => now with { Pair = now.Pair with { SungCents = 2.5 } });
                memory.EndFirstRun();
                memory.Save();
                files.Add(File.ReadAllText(FilePath));
            }

            Assert.Single(files.Distinct());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("null")]
    [InlineData("""{ "formatVersion": 7 }""")]
    public void A_file_that_cannot_be_read_is_set_aside_whole(string text)
    {
        File.WriteAllText(FilePath, text);
        Memory memory = Memory.Load(_folder);
        Assert.True(memory.IsFirstRun);
        Assert.Contains("stand.json could not be used", memory.Trouble, StringComparison.Ordinal);
        memory.EndFirstRun();
        memory.Save();
        Assert.Equal(text, File.ReadAllText($"{FilePath}.unread"));
        Assert.False(Memory.Load(_folder).IsFirstRun);
    }

    [Fact]
    public void A_file_of_a_version_that_knew_less_is_read()
    {
        Memory memory = Memory.Load(_folder);
        memory.EndFirstRun();
        memory.Save();
        string[] newer = ["passageTempo", "passageFromBar", "passageToBar", "passageOctaves", "clickChannel", "octaveUp", "plainSigns", "arrowPedal"];
        IEnumerable<string> lines = File.ReadAllLines(FilePath).Where(line => !newer.Any(name => line.Contains($"\"{name}\"", StringComparison.Ordinal)));
        File.WriteAllText(FilePath, string.Join('\n', lines).Replace(",\n}", "\n}", StringComparison.Ordinal));
        Memory later = Memory.Load(_folder);
        Assert.Null(later.Trouble);
        Assert.Equal((80.0, 1), (later.Now.PassageTempo, later.Now.PassageFromBar));
    }

    [Fact]
    public void Values_out_of_range_are_refused_not_clamped()
    {
        Memory memory = Memory.Load(_folder);
        memory.EndFirstRun();
        memory.Save();
        File.WriteAllText(FilePath, File.ReadAllText(FilePath).Replace("\"a4Hz\": 440", "\"a4Hz\": 4400", StringComparison.Ordinal));
        Assert.Contains("a4Hz", Memory.Load(_folder).Trouble, StringComparison.Ordinal);
    }

    /// <summary>Two windows, and a command in between: each writes what was changed in it and nothing else.</summary>
    [Fact]
    public void What_another_window_wrote_meanwhile_stays()
    {
        Kept(now => now with { LevelDb = -30 });
        Memory one = Memory.Load(_folder);
        Memory two = Memory.Load(_folder);
        two.Change(now => now with { Theme = "light", Profile = now.Profile with { Aim = Grade.III } });
        two.Save();
        var players = new PlayerFiles(_folder);
        Player player = players.Current()!;
        players.Write(player with { Profile = player.Profile with { A4Hz = 442 } });
        one.Change(now => now with { LevelDb = -33, DelayMs = 12.5, Profile = now.Profile with { HighestSung = Pitch.Parse("E4") } });
        one.Save();
        Assert.Null(one.Trouble);

        // What this window shows stays as it was; the next save changes nothing else either.
        Assert.Equal(("dark", 440.0), (one.Now.Theme, one.Now.Profile.A4Hz));
        one.Change(now => now with { DelayMs = 13 });
        one.Save();
        Remembered later = Memory.Load(_folder).Now;
        Assert.Equal(("light", Grade.III, 442.0, -33.0, 13.0, Pitch.Parse("E4")), (later.Theme, later.Profile.Aim, later.Profile.A4Hz, later.LevelDb, later.DelayMs, later.Profile.HighestSung));
    }

    [Fact]
    public void All_that_is_remembered_is_taken_from_where_it_was_changed()
    {
        Remembered usual = Remembered.Usual();
        Remembered other = new(
            PlayerProfile.Usual(Instrument.Horn, VoiceKind.High) with { A4Hz = 442, TuningName = "equal", TuningRoot = Pitch.Parse("D3"), Aim = Grade.III, RegisterChange = Pitch.Parse("E4") },
            NoteNaming.German, true, usual.Pair with { SungCents = 5 }, -31, "light", "out", "in", "scene", true, "Ada", DisplayUnit.Beats, 40, "hf", true, 12, "found", true, true, 2, 90, 1, 3, 4, "own");
        Assert.All(typeof(Remembered).GetProperties().Where(part => part.CanWrite), part => Assert.NotEqual(part.GetValue(usual), part.GetValue(other)));
        Assert.Equal(other, usual.Over(usual, other));
        Assert.Equal(other, other.Over(usual, usual));
        Assert.Equal(usual, other.Over(other, usual));
    }

    /// <summary>The player's file cannot be read: another player's stays as it is, and so does that one.</summary>
    [Fact]
    public void A_player_that_cannot_be_read_is_never_overwritten()
    {
        Kept(now => now with { Profile = now.Profile with { A4Hz = 441 } });
        Memory memory = Memory.Load(_folder);
        string path = Assert.Single(Directory.GetFiles(Path.Combine(_folder, "players"), "*.json"));
        File.WriteAllText(path, "{ broken");
        memory.Change(now => now with { LevelDb = -40 });
        memory.Save();
        Assert.Equal("{ broken", File.ReadAllText(path));
        Assert.Contains("not a player of this version", memory.Trouble, StringComparison.Ordinal);
        Assert.Contains("-40", File.ReadAllText(FilePath), StringComparison.Ordinal);

        Memory later = Memory.Load(_folder);
        later.Change(now => now with { LevelDb = -41, Profile = now.Profile with { A4Hz = 439 } });
        later.Save();
        Assert.Equal("{ broken", File.ReadAllText(path));
    }

    /// <summary>What was changed of a player whose file cannot be read counts as not kept, until it is mended.</summary>
    [Fact]
    public void A_change_that_a_broken_file_cannot_take_is_told_and_waits()
    {
        Kept(now => now with { LevelDb = -30 });
        string path = Assert.Single(Directory.GetFiles(Path.Combine(_folder, "players"), "*.json"));
        string whole = File.ReadAllText(path);
        Memory memory = Memory.Load(_folder);
        File.WriteAllText(path, "{ broken");
        memory.Change(now => now with { Profile = now.Profile with { Aim = Grade.III } });
        memory.Save();
        Assert.Contains("not a player of this version", memory.Unsaved, StringComparison.Ordinal);
        File.WriteAllText(path, whole);
        memory.Save();
        Assert.Null(memory.Unsaved);
        Assert.Equal(Grade.III, new PlayerFiles(_folder).Current()!.Profile.Aim);
    }

    /// <summary>What could not be written of a player who has left the stand cannot be written later either.</summary>
    [Fact]
    public void A_change_that_was_never_written_stays_told_when_another_player_takes_the_stand()
    {
        Kept(now => now with { LevelDb = -30 });
        string path = Assert.Single(Directory.GetFiles(Path.Combine(_folder, "players"), "*.json"));
        Memory memory = Memory.Load(_folder);
        File.WriteAllText(path, "{ broken");
        memory.Change(now => now with { Profile = now.Profile with { Aim = Grade.III } });
        Player ada = Player.Usual with { Name = "Ada" };
        memory.Players!.Write(ada);
        memory.Use(ada);
        memory.Save();
        Assert.Equal("Ada", Memory.Load(_folder).Now.PlayerName);
        Assert.Contains("not a player of this version", memory.Unsaved, StringComparison.Ordinal);
    }

    /// <summary>Windows that end in the same moment, again and again: what each changed is there.</summary>
    [Fact]
    public void Windows_that_write_in_the_same_moment_lose_nothing()
    {
        for (int round = 1; round <= 40; round++)
        {
            Kept(now => now with { LevelDb = -30 });
            int value = round;
            Func<Remembered, Remembered>[] changes =
            [
                now => now with { LevelDb = -30 - (0.5 * value) }, now => now with { DelayMs = value }, now => now with { PassageTempo = 60 + value },
                now => now with { Profile = now.Profile with { A4Hz = 440 + (0.1 * value) } },
            ];
            Memory[] windows = [.. changes.Select(_ => Memory.Load(_folder))];
            using var together = new Barrier(windows.Length);
            Thread[] ends =
            [
                .. windows.Select((window, i) => new Thread(() =>
                {
                    window.Change(changes[i]);
                    together.SignalAndWait();
                    window.Save();
                })),
            ];
            Array.ForEach(ends, end => end.Start());
            Array.ForEach(ends, end => end.Join());
            Assert.All(windows, window => Assert.Null(window.Unsaved));
            Remembered kept = Memory.Load(_folder).Now;
            Assert.Equal((-30 - (0.5 * round), round, 60 + round, 440 + (0.1 * round)), (kept.LevelDb, kept.DelayMs, kept.PassageTempo, kept.Profile.A4Hz));
        }
    }

    /// <summary>A run with a player who cannot be read is theirs, not that of a player without a name.</summary>
    [Fact]
    public void Nobody_takes_the_place_of_a_player_who_cannot_be_read()
    {
        Kept(now => now with { LevelDb = -30 });
        var players = new PlayerFiles(_folder);
        players.Remove("");
        players.Write(Player.Usual with { Name = "Ada" });
        players.Choose("Ada");
        File.WriteAllText(Path.Combine(_folder, "players", "Ada.json"), "{ broken");
        Memory memory = Memory.Load(_folder);
        memory.Change(now => now with { LevelDb = -33 });
        memory.Save();
        Assert.Equal("Ada", memory.Now.PlayerName);
        Assert.Equal(["Ada"], players.Names);
    }

    [Fact]
    public void A_player_who_was_removed_elsewhere_is_not_made_again()
    {
        Kept(now => now with { LevelDb = -30 });
        Memory memory = Memory.Load(_folder);
        var players = new PlayerFiles(_folder);
        Assert.True(players.Remove(""));
        memory.Change(now => now with { LevelDb = -33 });
        memory.Save();
        Assert.Empty(players.Names);
        Assert.Null(memory.Unsaved);
        Assert.Contains("was removed elsewhere", memory.Trouble, StringComparison.Ordinal);
        memory.Change(now => now with { Unit = DisplayUnit.Beats });
        memory.Save();
        Assert.Contains("was removed elsewhere", memory.Unsaved, StringComparison.Ordinal);
        Assert.Empty(players.Names);

        // A folder that was taken away whole is made again.
        Directory.Delete(Path.Combine(_folder, "players"), recursive: true);
        memory.Save();
        Assert.Equal([""], players.Names);
    }

    /// <summary>Another device forgets what was measured of the one before, also what another window measured of it; and the other way round.</summary>
    [Fact]
    public void What_was_found_out_of_devices_goes_with_them()
    {
        Kept(now => now with { OutputDevice = "hall" });
        Memory one = Memory.Load(_folder);
        Memory two = Memory.Load(_folder);
        two.Change(now => now with { DelayMs = 85, OctaveUp = true, SpeakerLowestHz = 60 });
        two.Save();
        one.Change(now => now with { OutputDevice = "desk", DelayMs = null, SpeakerLowestHz = null, SpeakerAnswers = "", OctaveUp = false });
        one.Save();
        Remembered held = Memory.Load(_folder).Now;
        Assert.Equal(("desk", null, null, false), (held.OutputDevice, held.DelayMs, held.SpeakerLowestHz, held.OctaveUp));
        two.Change(now => now with { DelayMs = 90 });
        two.Save();
        held = Memory.Load(_folder).Now;
        Assert.Equal(("desk", null), (held.OutputDevice, held.DelayMs));
    }

    /// <summary>The pair last explored comes again for any aim and tuning; with another instrument it is that one's home pair.</summary>
    [Fact]
    public void The_pair_belongs_to_instrument_and_voice()
    {
        Kept(now => now with { Profile = now.Profile with { Aim = Grade.III, TuningName = "equal" }, Pair = now.Pair with { Sung = Pitch.Parse("G3"), SungCents = 4 } });
        Memory memory = Memory.Load(_folder);
        Assert.Equal((Pitch.Parse("G3"), 4.0), (memory.Now.Pair.Sung, memory.Now.Pair.SungCents));
        var players = new PlayerFiles(_folder);
        Player player = players.Current()!;
        PlayerProfile horn = player.Profile.With(Instrument.Horn, VoiceKind.High);
        players.Write(player with { Profile = horn });
        memory.Change(now => now with { LevelDb = -40 });
        memory.Save();
        Remembered later = Memory.Load(_folder).Now;
        Assert.Equal((Remembered.HomePair(horn).Played, Remembered.HomePair(horn).Sung, Instrument.Horn), (later.Pair.Played, later.Pair.Sung, later.Profile.Instrument));
        Assert.Equal(Pitch.Parse("G3"), memory.Now.Pair.Sung);
    }

    private void Kept(Func<Remembered, Remembered> change)
    {
        Memory memory = Memory.Load(_folder);
        memory.Change(change);
        memory.EndFirstRun();
        memory.Save();
    }

    [Fact]
    public void A_crash_leaves_a_note_or_says_why_not()
    {
        string said = CrashNote.Write(_folder, new InvalidOperationException("kettle"), TimeProvider.System);
        string path = Assert.Single(Directory.EnumerateFiles(_folder, "crash-*.txt"));
        Assert.Contains(path, said, StringComparison.Ordinal);
        Assert.Contains("kettle", File.ReadAllText(path), StringComparison.Ordinal);
        Assert.StartsWith("No note", CrashNote.Write(path, new InvalidOperationException("kettle"), TimeProvider.System), StringComparison.Ordinal);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
