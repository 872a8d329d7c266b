using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;
using Microsoft.Data.Sqlite;
using Xunit;

namespace BrassVox.Tests.Practice.Log;

public sealed class PracticeLogTests : IDisposable
{
    private readonly LogRig _rig = new();

    public void Dispose() => _rig.Dispose();

    [Fact]
    public void What_is_entered_is_read_back_and_survives_loss_of_power_by_its_settings()
    {
        TakeRecord take = LogRig.Record("a", LogRig.Monday, new SimulatedTone { OffsetCents = 21, SpreadCents = 6 }, player: "Horn-4");
        _rig.Log.Enter(take);
        _rig.Log.Add(new BodyNote(LogRig.Monday, "Horn-4", BodyTag.TongueRoot, "a"));

        LoggedTake read = Assert.Single(_rig.Log.Takes(TakeFilter.All));
        Assert.Equal(take.ToJson(indented: false), read.Take.ToJson(indented: false));
        Assert.Equal([BodyTag.TongueRoot], read.Body);
        Assert.Equal("wal", _rig.Ask("PRAGMA journal_mode"));
        Assert.Equal(21, (double)_rig.Ask("SELECT sung_offset_cents FROM takes")!, 1.0);
        Assert.Equal((long)take.Result.Findings.Count, _rig.Ask("SELECT count(*) FROM findings"));
        Assert.Contains(_rig.Log.Faults(TakeFilter.All), fault => fault == (Fault.Offset, 1));
        PracticeSpell spell = Assert.Single(_rig.Log.Spells(TakeFilter.All));
        Assert.Equal(8, spell.Seconds, 0.01);
        Assert.Equal(8, spell.SungSeconds, 0.5);
    }

    [Fact]
    public void Filters_choose_by_player_exercise_and_time()
    {
        _rig.Log.Enter(
            LogRig.Record("a", LogRig.Monday, player: "Tuba-1"),
            LogRig.Record("b", LogRig.Monday.AddDays(1), exercise: "long-breath", player: "Tuba-1"),
            LogRig.Record("c", LogRig.Monday.AddDays(2), player: "Horn-4"));
        string Ids(TakeFilter filter) => string.Concat(_rig.Log.Takes(filter).Select(take => take.Take.Id));
        Assert.Equal("abc", Ids(TakeFilter.All));
        Assert.Equal("ab", Ids(new TakeFilter("Tuba-1")));
        Assert.Equal("b", Ids(new TakeFilter(ExerciseId: "long-breath")));
        Assert.Equal("b", Ids(new TakeFilter(From: LogRig.Monday.AddHours(1), Before: LogRig.Monday.AddDays(2))));
        Assert.Equal(["Horn-4", "Tuba-1"], _rig.Log.Players());
        Assert.Equal(2, _rig.Log.CountTakes("Tuba-1"));
    }

    [Fact]
    public void Entering_a_take_twice_counts_its_singing_once()
    {
        TakeRecord take = LogRig.Record("a", LogRig.Monday);
        _rig.Log.Enter(take);
        _rig.Log.Enter(take);
        Assert.Single(_rig.Log.Spells(TakeFilter.All));
        Assert.Single(_rig.Log.Takes(TakeFilter.All));
    }

    [Fact]
    public void A_take_found_as_a_file_is_entered_and_counted_where_it_is_missing_and_left_alone_where_it_is_there_by_now()
    {
        TakeRecord found = LogRig.Record("a", LogRig.Monday);
        TakeRecord said = found with { Said = new Saying(SaidPitch.True, SaidPitch.Low, SaidPair.Still, SaidLine.Held, Sureness.Certain) };
        _rig.Log.Enter(said);
        _rig.Log.EnterFound(found, LogRig.Record("b", LogRig.Monday.AddDays(1)));
        IReadOnlyList<LoggedTake> takes = _rig.Log.Takes(TakeFilter.All);
        Assert.Equal(["a", "b"], takes.Select(take => take.Take.Id));
        Assert.Equal(said.Said, takes[0].Take.Said);
        Assert.Equal(2, _rig.Log.Spells(TakeFilter.All).Count);
    }

    [Fact]
    public void Deleted_takes_leave_no_byte_behind_and_what_was_sung_stays_counted()
    {
        const string Id = "20260907T173000Z-open-home-pair-77";
        _rig.Log.Enter(LogRig.Record(Id, LogRig.Monday));
        _rig.Log.Add(new BodyNote(LogRig.Monday, "", BodyTag.Jaw, Id));
        _rig.Log.BeginDeleting([Id]);
        Assert.Empty(_rig.Log.Takes(TakeFilter.All));
        Assert.Equal([Id], _rig.Log.Leaving());
        _rig.Log.Delete([Id]);

        foreach (string file in Directory.GetFiles(_rig.Folder))
        {
            Assert.DoesNotContain(Id, File.ReadAllText(file, System.Text.Encoding.Latin1), StringComparison.Ordinal);
        }

        Assert.Null(Assert.Single(_rig.Log.BodyNotes(TakeFilter.All)).TakeId);
        Assert.Single(_rig.Log.Spells(TakeFilter.All));
    }

    [Fact]
    public void Wishes_last_until_the_exercise_is_played()
    {
        _rig.Log.Wish("", "long-breath", LogRig.Monday);
        _rig.Log.Wish("", "open-home-pair", LogRig.Monday.AddMinutes(1));
        _rig.Log.Enter(LogRig.Record("a", LogRig.Monday.AddMinutes(-1), exercise: "long-breath"));
        Assert.Equal(["long-breath", "open-home-pair"], _rig.Log.Wishes(""));
        _rig.Log.Enter(LogRig.Record("b", LogRig.Monday.AddMinutes(2), exercise: "long-breath"));
        Assert.Equal(["open-home-pair"], _rig.Log.Wishes(""));
        _rig.Log.Unwish("", "open-home-pair");
        Assert.Empty(_rig.Log.Wishes(""));
        Assert.Null(_rig.Log.PlanMinutes(""));
        _rig.Log.SetPlanMinutes("", 20);
        _rig.Log.SetPlanMinutes("", 28);
        Assert.Equal(28, _rig.Log.PlanMinutes(""));
    }

    [Fact]
    public void The_file_and_its_companions_belong_to_their_owner_only()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Unix permissions; on Windows the user's own folder decides.");
            return;
        }

        string deep = Path.Combine(_rig.Folder, "new", "data");
        var log = new PracticeLog(deep);
        log.Enter(LogRig.Record("a", LogRig.Monday));
        using var open = new SqliteConnection($"Data Source={log.Path};Pooling=False");
        open.Open();
        using SqliteCommand command = open.CreateCommand();
        command.CommandText = "SELECT count(*) FROM takes";
        command.ExecuteScalar();
        Assert.Equal(3, Directory.GetFiles(deep).Length);
        foreach (string file in Directory.GetFiles(deep))
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        }

        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(deep));
    }

    [Fact]
    public void Takes_kept_as_files_before_there_was_a_log_are_entered_once()
    {
        var store = new TakeStore(_rig.Folder, TimeProvider.System);
        TakeRecord kept = store.Keep(LogRig.Judged(), null).Record!;
        File.Delete(store.Log.Path);

        // The first version of the file format knew neither player nor drone.
        string path = Path.Combine(store.Folder, kept.Id + ".json");
        string old = File.ReadAllText(path).Replace("\"formatVersion\":2", "\"formatVersion\":1", StringComparison.Ordinal)
            .Replace(",\"playerName\":null,\"isSimulated\":false,\"drone\":null", "", StringComparison.Ordinal);
        Assert.DoesNotContain("playerName", old, StringComparison.Ordinal);
        File.WriteAllText(path, old);

        Assert.Equal(kept.Id, Assert.Single(store.List().Takes).Take.Id);
        Assert.Single(store.List().Takes);
        Assert.Single(store.Log.Spells(TakeFilter.All));
    }

    [Fact]
    public void A_deletion_cut_short_is_finished_when_the_takes_are_next_listed()
    {
        var store = new TakeStore(_rig.Folder, TimeProvider.System);
        TakeRecord kept = store.Keep(LogRig.Judged(), null).Record!;
        store.Log.BeginDeleting([kept.Id]);
        Assert.Empty(store.List().Takes);
        Assert.Empty(Directory.GetFiles(store.Folder));
        Assert.Empty(store.Log.Leaving());
    }
}
