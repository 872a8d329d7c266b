using BrassVox.Practice.Log;
using Microsoft.Data.Sqlite;
using Xunit;

namespace BrassVox.Tests.Practice.Log;

/// <summary>Every older version of the log, stored as the SQL that makes it, becomes the present one and keeps what it held.</summary>
public sealed class LogMigrationTests : IDisposable
{
    private const string TakeId = "20260907T173000Z-open-home-pair-1";
    private readonly LogRig _rig = new();

    public static TheoryData<int> OlderVersions => [.. Enumerable.Range(1, LogSchema.Version - 1)];

    public void Dispose() => _rig.Dispose();

    [Fact]
    public void There_is_a_fixture_for_every_older_version_and_no_other() => Assert.Equal(
        Enumerable.Range(1, LogSchema.Version - 1).Select(version => $"log-{version}.sql"),
        Directory.GetFiles(LogRig.Fixtures).Select(Path.GetFileName).Order(StringComparer.Ordinal));

    [Theory]
    [MemberData(nameof(OlderVersions))]
    public void An_older_log_becomes_the_present_one_and_loses_nothing(int version)
    {
        Make(version);
        Assert.Equal((long)version, _rig.Ask("PRAGMA user_version"));
        LoggedTake take = Assert.Single(_rig.Log.Takes(new TakeFilter("Euphonium-3")));
        Assert.Equal(TakeId, take.Take.Id);
        Assert.True(take.Take.IsSimulated);
        Assert.Equal(version >= 2 ? [BodyTag.TongueRoot] : [], take.Body);
        Assert.Equal(version >= 2 ? 7.5 : 0, _rig.Log.Spells(TakeFilter.All).Sum(spell => spell.SungSeconds));

        _rig.Log.Wish("Euphonium-3", "long-breath", LogRig.Monday);
        _rig.Log.Enter(LogRig.Record("new", LogRig.Monday));
        Assert.Equal((long)LogSchema.Version, _rig.Ask("PRAGMA user_version"));
        Assert.Equal("ok", _rig.Ask("PRAGMA integrity_check"));
        Assert.Null(_rig.Ask("PRAGMA foreign_key_check"));
    }

    [Fact]
    public void A_take_of_a_passage_comes_to_be_kept_under_its_passage()
    {
        Make(3);
        const string Id = "passage-two-breaths-one-pipe";
        LoggedTake take = Assert.Single(_rig.Log.Takes(new TakeFilter("Tuba-1") { ExerciseId = Id }));
        Assert.Equal((Id, 0, "Two Breaths, One Pipe"), (take.Take.ExerciseId, take.Take.ExerciseNumber, take.Take.ExerciseName));
        Assert.Equal("Two Breaths, One Pipe", take.Take.Heading);
        Assert.Equal(0L, _rig.Ask("SELECT count(*) FROM takes WHERE exercise_id='own-passage' OR exercise_number=33"));
        Assert.Equal(Id, _rig.Ask("SELECT exercise_id FROM spells WHERE player='Tuba-1'"));

        // What an older program left as a file or in an export becomes the same on its way in.
        _rig.Log.Enter(LogRig.Record("older", LogRig.Monday) with { PlayerName = "Horn-4", ExerciseId = "own-passage", ExerciseNumber = 33, ExerciseName = "Übergang" });
        Assert.Equal("passage-ubergang", Assert.Single(_rig.Log.Takes(new TakeFilter("Horn-4"))).Take.ExerciseId);
        Assert.Equal("passage-ubergang", _rig.Ask("SELECT exercise_id FROM spells WHERE player='Horn-4'"));
    }

    [Theory]
    [MemberData(nameof(OlderVersions))]
    public void The_tables_are_the_same_whichever_version_one_came_from(int version)
    {
        Make(version);
        _rig.Log.Wish("", "x", LogRig.Monday);
        using var fresh = new LogRig();
        fresh.Log.Wish("", "x", LogRig.Monday);
        const string Tables = "SELECT group_concat(sql, ';') FROM (SELECT sql FROM sqlite_schema WHERE sql NOT NULL ORDER BY name)";
        Assert.Equal(Words(fresh.Ask(Tables)), Words(_rig.Ask(Tables)));
    }

    [Fact]
    public void A_migration_that_breaks_off_changes_nothing()
    {
        Make(1);
        using (var connection = new SqliteConnection($"Data Source={_rig.Log.Path};Pooling=False"))
        {
            connection.Open();
            using SqliteCommand command = connection.CreateCommand();
            command.CommandText = "CREATE TABLE plan_minutes(in_the_way)";
            command.ExecuteNonQuery();
        }

        Assert.NotNull(_rig.Log.Trouble());
        Assert.Equal(1L, _rig.Ask("PRAGMA user_version"));
        Assert.Null(_rig.Ask("SELECT name FROM sqlite_schema WHERE name='spells'"));
    }

    private static string Words(object? sql) => string.Join(' ', ((string)sql!).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Replace("\"", "", StringComparison.Ordinal);

    private void Make(int version) => _rig.MakeOlder(version);
}
