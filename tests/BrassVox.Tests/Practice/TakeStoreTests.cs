using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using Xunit;

namespace BrassVox.Tests.Practice;

public sealed class TakeStoreTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("brassvox-takes-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public void A_kept_take_is_read_back_whole_and_deleting_leaves_nothing()
    {
        var store = new TakeStore(_folder, TimeProvider.System);
        JudgedTake take = Take();
        Saying said = new(SaidPitch.True, SaidPitch.Low, SaidPair.Still, SaidLine.Held, Sureness.Guessing);
        TakeRecord kept = store.Keep(take, null).Record!;
        TakeRecord again = store.Keep(take, null).Record!;
        Assert.NotEqual(kept.Id, again.Id);
        Assert.Null(store.Say(kept, said).Message);

        TakeListing listing = store.List();
        Assert.Empty(listing.Problems);
        Assert.Equal(2, listing.Takes.Count);
        Assert.All(listing.Takes, take => Assert.Empty(take.Take.Frames));
        TakeRecord read = store.Read(listing.Takes.Single(take => take.Take.Id == kept.Id).Take.Id)!;
        Assert.Equal(said, read.Said);
        Assert.Equal(take.Result.AsAsked, read.Result.AsAsked);
        Assert.Equal(take.Result.Sung!.OffsetCents!.Value, read.Result.Sung!.OffsetCents!.Value, 1e-5);
        Assert.Equal(take.Frames.Count, read.Frames.Count);
        Assert.Equal(44 + 24 + (4 * take.Recorded.Samples.Length), new FileInfo(store.SoundPath(read)).Length, 200.0);

        Assert.All(listing.Takes, logged => Assert.Null(store.Delete(logged.Take)));
        Assert.Empty(Directory.GetFiles(store.Folder));
    }

    [Fact]
    public void What_is_said_of_a_take_that_was_deleted_meanwhile_does_not_bring_it_back()
    {
        var store = new TakeStore(_folder, TimeProvider.System);
        TakeRecord deleted = store.Keep(Take(), null).Record!;
        TakeRecord leaving = store.Keep(Take(), null).Record!;
        Assert.Null(store.Delete(deleted));
        store.Log.BeginDeleting([leaving.Id]);
        Saying said = new(SaidPitch.True, SaidPitch.Low, SaidPair.Still, SaidLine.Held, Sureness.Guessing);
        Assert.All(new[] { deleted, leaving }, take =>
        {
            TakeSaving saving = store.Say(take, said);
            Assert.Null(saving.Record);
            Assert.Contains("deleted meanwhile", saving.Message, StringComparison.Ordinal);
        });
        Assert.Empty(store.List().Takes);
        Assert.Empty(Directory.GetFiles(store.Folder));
        Assert.Equal(2, store.Log.Spells(TakeFilter.All).Count);
    }

    /// <summary>The log was away while the take was kept, so that only its files tell of it.</summary>
    [Fact]
    public void What_is_said_of_a_take_that_is_there_as_files_alone_enters_it_with_the_sentence()
    {
        var store = new TakeStore(_folder, TimeProvider.System);
        TakeRecord kept = store.Keep(Take(), null).Record!;
        foreach (string file in Directory.GetFiles(_folder))
        {
            File.Delete(file);
        }

        Saying said = new(SaidPitch.True, SaidPitch.Low, SaidPair.Still, SaidLine.Held, Sureness.Guessing);
        Assert.Null(store.Say(kept, said).Message);
        Assert.Equal(said, Assert.Single(store.Log.Takes(TakeFilter.All)).Take.Said);
        Assert.Single(store.Log.Spells(TakeFilter.All));
    }

    [Fact]
    public void Instances_that_keep_takes_in_the_same_second_each_find_a_name()
    {
        var time = new Support.ManualTime();
        const int instances = 6;
        const int takes = 5;
        JudgedTake take = Take();
        Thread[] threads = [.. Enumerable.Range(0, instances).Select(_ => new Thread(() =>
        {
            var store = new TakeStore(_folder, time);
            for (int i = 0; i < takes; i++)
            {
                Assert.Null(store.Keep(take, null).Message);
            }
        }))];
        foreach (Thread thread in threads)
        {
            thread.Start();
        }

        foreach (Thread thread in threads)
        {
            thread.Join();
        }

        Assert.Equal(instances * takes, new TakeStore(_folder, time).List().Takes.Select(kept => kept.Take.Id).Distinct().Count());
        Assert.Equal(instances * takes, Directory.GetFiles(Path.Combine(_folder, "takes"), "*.wav").Length);
    }

    [Fact]
    public void A_record_of_a_version_that_knew_less_is_read_and_carried_on()
    {
        var store = new TakeStore(_folder, TimeProvider.System);
        TakeRecord kept = store.Keep(Take(), null).Record!;
        string path = Path.Combine(store.Folder, kept.Id + ".json");
        var record = System.Text.Json.Nodes.JsonNode.Parse(File.ReadAllText(path))!;
        var result = (System.Text.Json.Nodes.JsonObject)record["result"]!;
        Assert.True(result.Remove("notes") && result.Remove("droneComparisons"));
        File.WriteAllText(path, record.ToJsonString());
        TakeRecord read = store.Read(kept.Id)!;
        Assert.Empty(read.Result.Notes);
        Assert.Empty(read.Result.DroneComparisons);
        Assert.Contains("\"notes\":[]", read.ToJson(indented: false), StringComparison.Ordinal);
    }

    [Fact]
    public void Takes_belong_to_their_owner_only()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Unix permissions; on Windows the user's own folder decides.");
            return;
        }

        var store = new TakeStore(_folder, TimeProvider.System);
        TakeRecord kept = store.Keep(Take(), null).Record!;
        const UnixFileMode others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.OtherRead | UnixFileMode.OtherWrite;
        Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(store.SoundPath(kept)) & others);
        Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(Path.Combine(store.Folder, kept.Id + ".json")) & others);
        Assert.Equal(UnixFileMode.None, File.GetUnixFileMode(store.Folder) & others);
    }

    [Fact]
    public void What_is_not_finite_is_never_written()
    {
        JudgedTake take = Take();
        AnalysisFrame odd = take.Frames[0] with { BeatRateHz = double.NaN, LevelDbfs = double.NegativeInfinity };
        TakeFrame kept = TakeFrame.Of(odd);
        Assert.Null(kept.BeatsPerSecond);
        Assert.True(double.IsFinite(kept.LevelDbfs));
        string json = TakeRecord.Of(take, null, "id", "id.wav", DateTimeOffset.UnixEpoch, true).ToJson(indented: false);
        Assert.DoesNotContain("NaN", json, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", json, StringComparison.Ordinal);
    }

    [Fact]
    public void Foreign_and_broken_files_are_named_and_left_alone()
    {
        var store = new TakeStore(_folder, TimeProvider.System);
        TakeRecord kept = store.Keep(Take(), null).Record!;
        string foreign = Path.Combine(store.Folder, "other.json");
        File.WriteAllText(foreign, "{ \"formatVersion\": 7 }");
        TakeListing listing = store.List();
        Assert.Equal(kept.Id, Assert.Single(listing.Takes).Take.Id);
        Assert.Contains("other.json", Assert.Single(listing.Problems), StringComparison.Ordinal);
        Assert.True(File.Exists(foreign));
    }

    /// <summary>What a disk that filled up, or a crash, left of a take is told; what another instance writes just now is not.</summary>
    [Fact]
    public void Sound_without_a_record_is_told_with_or_without_a_log()
    {
        var store = new TakeStore(_folder, TimeProvider.System);
        TakeRecord kept = store.Keep(Take(), null).Record!;
        foreach ((string name, int minutes) in new[] { ("whole.wav", 2), ("begun.wav.part", 2), ("now.wav", 0), ("now-2.wav.part", 0), ("other.txt", 2) })
        {
            string path = Path.Combine(store.Folder, name);
            File.WriteAllText(path, "");
            File.SetLastWriteTimeUtc(path, DateTime.UtcNow.AddMinutes(-minutes));
        }

        File.SetLastWriteTimeUtc(store.SoundPath(kept), DateTime.UtcNow.AddMinutes(-2));
        void AssertTold(TakeListing listing, int others)
        {
            Assert.Equal(kept.Id, Assert.Single(listing.Takes).Take.Id);
            Assert.Equal([Path.Combine(store.Folder, "begun.wav.part"), Path.Combine(store.Folder, "whole.wav")], listing.Problems.Skip(others).Select(problem => problem.Split(" is sound without a take's record")[0]));
        }

        AssertTold(store.List(), 0);
        File.WriteAllText(Path.Combine(_folder, PracticeLog.FileName), "no database");
        AssertTold(store.List(), 1);
    }

    [Fact]
    public void A_folder_that_cannot_be_made_is_told_and_nothing_is_thrown()
    {
        string file = Path.Combine(_folder, "file");
        File.WriteAllText(file, "");
        TakeSaving saving = new TakeStore(file, TimeProvider.System).Keep(Take(), null);
        Assert.Null(saving.Record);
        Assert.Contains(file, saving.Message, StringComparison.Ordinal);
    }

    /// <summary>XDG Base Directory Specification 0.8: a relative path is ignored, the default is ~/.local/share.</summary>
    [Theory]
    [InlineData(null, null, null, "/home/k/.local/share/brassvox")]
    [InlineData(null, null, "/data", "/data/brassvox")]
    [InlineData(null, null, "data", "/home/k/.local/share/brassvox")]
    [InlineData(null, "/own", "/data", "/own")]
    [InlineData("/given", "/own", "/data", "/given")]
    public void The_data_folder_follows_option_variable_and_XDG(string? given, string? own, string? xdg, string expected)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Unix paths.");
        Assert.Equal(expected, DataFolder.Find(given, name => name switch { DataFolder.Variable => own, "XDG_DATA_HOME" => xdg, "HOME" => "/home/k", _ => null }, isWindows: false));
    }

    private static JudgedTake Take()
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair");
        float[] samples = new float[48000 * 9];
        Array.Fill(samples, 0.01f);
        var recorded = new RecordedTake(samples, 48000, 0.5);
        return JudgedTake.Of(resolved, 1, recorded, (rate, prior) => new ScriptedTracker(rate, resolved));
    }
}
