using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;
using Microsoft.Data.Sqlite;
using Xunit;

namespace BrassVox.Tests.Practice.Log;

/// <summary>Whatever is wrong with the file has a name, touches nothing, and loses no take.</summary>
public sealed class LogFailureTests : IDisposable
{
    private readonly LogRig _rig = new();

    public void Dispose() => _rig.Dispose();

    [Theory]
    [InlineData("CREATE TABLE theirs(a); INSERT INTO theirs VALUES(1)", LogFailureKind.Foreign)]
    [InlineData("PRAGMA application_id=99", LogFailureKind.Foreign)]
    [InlineData("PRAGMA application_id=1112960888; PRAGMA user_version=1000", LogFailureKind.Newer)]
    [InlineData("PRAGMA application_id=1112960888; PRAGMA user_version=-1", LogFailureKind.Foreign)]
    public void A_database_that_is_not_ours_or_newer_is_left_byte_for_byte(string sql, LogFailureKind kind)
    {
        Make(sql);
        byte[] before = File.ReadAllBytes(_rig.Log.Path);
        LogFailure failure = _rig.Log.Trouble()!;
        Assert.Equal(kind, failure.Kind);
        Assert.Contains(_rig.Log.Path, failure.Message, StringComparison.Ordinal);
        Assert.Equal(kind, Assert.Throws<LogException>(() => _rig.Log.Takes(TakeFilter.All)).Failure.Kind);
        Assert.Equal(before, File.ReadAllBytes(_rig.Log.Path));
    }

    [Fact]
    public void A_file_that_is_no_database_is_foreign()
    {
        File.WriteAllText(_rig.Log.Path, string.Concat(Enumerable.Repeat("Shopping list: valve oil, water. ", 200)));
        Assert.Equal(LogFailureKind.Foreign, _rig.Log.Trouble()!.Kind);
        Assert.StartsWith("Shopping", File.ReadAllText(_rig.Log.Path), StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_that_is_no_take_makes_the_log_damaged_and_the_takes_are_read_as_files()
    {
        var store = new TakeStore(_rig.Folder, TimeProvider.System);
        TakeSaving saving = store.Keep(LogRig.Judged(), null);
        _rig.Ask("UPDATE takes SET record='{\"formatVersion\":\u001b2}'");
        Assert.Equal(LogFailureKind.Damaged, Assert.Throws<LogException>(() => _rig.Log.Takes(TakeFilter.All)).Failure.Kind);
        TakeListing listing = store.List();
        Assert.Equal(saving.Record!.Id, Assert.Single(listing.Takes).Take.Id);
        Assert.DoesNotContain(listing.Problems[0], char.IsControl);
    }

    [Fact]
    public void Where_the_log_cannot_be_used_takes_are_kept_and_read_as_files()
    {
        Make("CREATE TABLE theirs(a)");
        var store = new TakeStore(_rig.Folder, TimeProvider.System);
        TakeSaving saving = store.Keep(LogRig.Judged(), null);
        Assert.NotNull(saving.Record);
        Assert.Contains("kept as files", saving.Message, StringComparison.Ordinal);
        TakeListing listing = store.List();
        Assert.Equal(saving.Record.Id, Assert.Single(listing.Takes).Take.Id);
        Assert.Contains(_rig.Log.Path, listing.Problems[0], StringComparison.Ordinal);

        File.Delete(_rig.Log.Path);
        Assert.Empty(store.List().Problems);
        Assert.Equal(1, store.Log.CountTakes());
    }

    /// <summary>SQLITE_IOERR (10), as a full disk gives for the companion files: the log is not damaged, and is not to be moved away. Source: the result codes on sqlite.org, from memory.</summary>
    [Fact]
    public void A_disk_that_fails_is_not_taken_for_a_damaged_log()
    {
        LogFailure failure = Assert.Throws<LogException>(() => LogConnection.Guarded<int>(_rig.Log.Path, () => throw new SqliteException("disk I/O error", 10))).Failure;
        Assert.Equal(LogFailureKind.DiskTrouble, failure.Kind);
        Assert.Contains("Leave it where it is", failure.Message, StringComparison.Ordinal);
        Assert.Contains(_rig.Log.Path, failure.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_full_disk_is_told_and_what_was_kept_before_is_safe()
    {
        var small = new PracticeLog(_rig.Folder, new LogOptions(MostPages: 40));
        int kept = 0;
        LogException fault = Assert.Throws<LogException>(() =>
        {
            for (; kept < 1000; kept++)
            {
                small.Enter(LogRig.Record($"take-{kept}", LogRig.Monday.AddMinutes(kept)));
            }
        });
        Assert.Equal(LogFailureKind.NoSpace, fault.Failure.Kind);
        Assert.InRange(kept, 1, 999);
        Assert.Equal(kept, _rig.Log.CountTakes());
        Assert.Equal("ok", _rig.Ask("PRAGMA integrity_check"));
    }

    [Fact]
    public void Another_instance_that_writes_is_waited_for_and_then_named()
    {
        _rig.Log.Enter(LogRig.Record("a", LogRig.Monday));
        using var other = new SqliteConnection($"Data Source={_rig.Log.Path};Pooling=False");
        other.Open();
        using (SqliteTransaction holds = other.BeginTransaction(deferred: false))
        {
            var impatient = new PracticeLog(_rig.Folder, new LogOptions(BusySeconds: 1));
            LogException fault = Assert.Throws<LogException>(() => impatient.Enter(LogRig.Record("b", LogRig.Monday)));
            Assert.Equal(LogFailureKind.Busy, fault.Failure.Kind);
            Assert.Single(impatient.Takes(TakeFilter.All));
        }

        _rig.Log.Enter(LogRig.Record("b", LogRig.Monday));
        Assert.Equal(2, _rig.Log.CountTakes());
    }

    [Fact]
    public void Many_instances_at_once_lose_nothing()
    {
        TakeRecord take = LogRig.Record("x", LogRig.Monday);
        Parallel.For(0, 8, writer =>
        {
            var log = new PracticeLog(_rig.Folder);
            for (int i = 0; i < 10; i++)
            {
                log.Enter(take with { Id = $"{writer}-{i}" });
            }
        });
        Assert.Equal(80, _rig.Log.CountTakes());
        Assert.Equal("ok", _rig.Ask("PRAGMA integrity_check"));
    }

    [Fact]
    public void A_folder_that_is_a_file_is_named()
    {
        string file = Path.Combine(_rig.Folder, "file");
        File.WriteAllText(file, "");
        LogFailure failure = new PracticeLog(file).Trouble()!;
        Assert.Equal(LogFailureKind.CannotOpen, failure.Kind);
        Assert.Contains(file, failure.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_may_not_be_written_is_read_and_says_so_when_written()
    {
        _rig.Log.Enter(LogRig.Record("a", LogRig.Monday));
        if (OperatingSystem.IsWindows())
        {
            File.SetAttributes(_rig.Log.Path, FileAttributes.ReadOnly);
        }
        else
        {
            File.SetUnixFileMode(_rig.Log.Path, UnixFileMode.UserRead);
            File.SetUnixFileMode(_rig.Folder, UnixFileMode.UserRead | UnixFileMode.UserExecute);
        }

        try
        {
            Assert.SkipWhen(MayWriteAnyway(), "This user may write whatever the permissions say.");
            Assert.Single(_rig.Log.Takes(TakeFilter.All));
            Assert.Equal(LogFailureKind.ReadOnly, Assert.Throws<LogException>(() => _rig.Log.Enter(LogRig.Record("b", LogRig.Monday))).Failure.Kind);
        }
        finally
        {
            if (OperatingSystem.IsWindows())
            {
                File.SetAttributes(_rig.Log.Path, FileAttributes.Normal);
            }
            else
            {
                File.SetUnixFileMode(_rig.Folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
            }
        }
    }

    private bool MayWriteAnyway()
    {
        try
        {
            using FileStream file = File.OpenWrite(_rig.Log.Path);
            return true;
        }
        catch (UnauthorizedAccessException)
        {
            return false;
        }
    }

    private void Make(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={_rig.Log.Path};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }
}
