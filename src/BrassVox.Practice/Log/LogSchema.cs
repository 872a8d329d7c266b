using System.Globalization;
using BrassVox.Practice.Passages;
using Microsoft.Data.Sqlite;

namespace BrassVox.Practice.Log;

/// <summary>The tables of the log and how every older version becomes the present one. A version, once released, never changes.</summary>
/// <remarks>Source: SQLite documentation, "Pragma statements": application_id and user_version are 32-bit fields of the header left to the application.</remarks>
internal static class LogSchema
{
    /// <summary>"BVox" in ASCII; stands in the file's header.</summary>
    public const int ApplicationId = 0x42566F78;

    private static readonly string[] Steps =
    [
        // 1: takes and what was found in them.
        """
        CREATE TABLE takes(
          id TEXT NOT NULL PRIMARY KEY,
          made_at TEXT NOT NULL,
          player TEXT NOT NULL,
          is_simulated INTEGER NOT NULL,
          exercise_id TEXT NOT NULL,
          exercise_number INTEGER NOT NULL,
          instrument TEXT NOT NULL,
          voice TEXT NOT NULL,
          played_midi INTEGER NOT NULL,
          sung_midi INTEGER NOT NULL,
          tuning TEXT NOT NULL,
          a4_hz REAL NOT NULL,
          aim TEXT NOT NULL,
          as_asked INTEGER,
          reached TEXT,
          played_offset_cents REAL, played_spread_cents REAL, played_drift_cents REAL,
          sung_offset_cents REAL, sung_spread_cents REAL, sung_drift_cents REAL,
          beats_per_second REAL,
          fog_seconds REAL NOT NULL,
          sung_seconds REAL NOT NULL,
          is_scored INTEGER NOT NULL,
          sure TEXT,
          said_right INTEGER NOT NULL,
          said_told INTEGER NOT NULL,
          is_leaving INTEGER NOT NULL DEFAULT 0,
          record TEXT NOT NULL) STRICT;
        CREATE INDEX takes_by_player ON takes(player, made_at);
        CREATE TABLE findings(
          take_id TEXT NOT NULL REFERENCES takes(id) ON DELETE CASCADE,
          place INTEGER NOT NULL,
          step_id TEXT NOT NULL,
          criterion TEXT NOT NULL,
          role TEXT,
          verdict TEXT NOT NULL,
          fault TEXT NOT NULL,
          value REAL,
          unit TEXT NOT NULL,
          PRIMARY KEY(take_id, place)) STRICT, WITHOUT ROWID;
        """,

        // 2: the body, and what was practised and sung.
        """
        CREATE TABLE body_notes(
          id INTEGER PRIMARY KEY,
          at TEXT NOT NULL,
          player TEXT NOT NULL,
          tag TEXT NOT NULL,
          take_id TEXT REFERENCES takes(id) ON DELETE SET NULL,
          is_simulated INTEGER NOT NULL) STRICT;
        CREATE INDEX body_notes_by_take ON body_notes(take_id);
        CREATE TABLE spells(
          id INTEGER PRIMARY KEY,
          at TEXT NOT NULL,
          player TEXT NOT NULL,
          exercise_id TEXT NOT NULL,
          seconds REAL NOT NULL,
          sung_seconds REAL NOT NULL,
          is_simulated INTEGER NOT NULL) STRICT;
        CREATE INDEX spells_by_player ON spells(player, at);
        """,

        // 3: listening, and what the player wants of the plan.
        """
        CREATE TABLE listening(
          id INTEGER PRIMARY KEY,
          at TEXT NOT NULL,
          player TEXT NOT NULL,
          exercise_id TEXT NOT NULL,
          trials INTEGER NOT NULL,
          right INTEGER NOT NULL,
          chance_share REAL NOT NULL,
          error_percent REAL,
          is_simulated INTEGER NOT NULL) STRICT;
        CREATE TABLE plan_minutes(
          player TEXT NOT NULL PRIMARY KEY,
          minutes INTEGER NOT NULL) STRICT;
        CREATE TABLE plan_wishes(
          player TEXT NOT NULL,
          exercise_id TEXT NOT NULL,
          at TEXT NOT NULL,
          PRIMARY KEY(player, exercise_id)) STRICT;
        """,

        // 4: takes of passages, once all own-passage and number 33, are kept under their passage.
        """
        UPDATE takes SET exercise_id=passage_id(json_extract(record,'$.exerciseName')), exercise_number=0,
          record=json_set(record,'$.exerciseId',passage_id(json_extract(record,'$.exerciseName')),'$.exerciseNumber',0)
          WHERE exercise_id='own-passage' AND exercise_number=33;
        UPDATE spells SET exercise_id=(SELECT exercise_id FROM takes WHERE takes.made_at=spells.at AND takes.player=spells.player)
          WHERE exercise_id='own-passage' AND EXISTS(SELECT 1 FROM takes WHERE takes.made_at=spells.at AND takes.player=spells.player);
        """,
    ];

    /// <summary>The present version.</summary>
    public static int Version => Steps.Length;

    /// <summary>What stands in the way of using the file; null when it is ours, of a known version, or still empty.</summary>
    public static LogFailureKind? Obstacle(SqliteConnection connection)
    {
        // One look: another instance may be making the file in this moment.
        using SqliteTransaction look = connection.BeginTransaction(deferred: true);
        int application = Number(connection, "PRAGMA application_id");
        if (application == ApplicationId)
        {
            int version = Number(connection, "PRAGMA user_version");
            return version > Version ? LogFailureKind.Newer : version < 0 ? LogFailureKind.Foreign : null;
        }

        bool isEmpty = Number(connection, "SELECT count(*) FROM sqlite_schema") == 0;
        return application == 0 && isEmpty ? null : LogFailureKind.Foreign;
    }

    /// <summary>True when the file has to be brought to the present version first.</summary>
    public static bool IsOld(SqliteConnection connection) => Number(connection, "PRAGMA user_version") < Version;

    /// <summary>Brings the file to a version, all of it or nothing; another instance may have done so meanwhile.</summary>
    /// <param name="connection">An open connection.</param>
    /// <param name="version">The version; the present one outside tests.</param>
    public static void Migrate(SqliteConnection connection, int version)
    {
        connection.CreateFunction<string, string>("passage_id", PassageExercise.IdOf, isDeterministic: true);
        using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
        for (int from = Number(connection, "PRAGMA user_version"); from < version; from++)
        {
            Execute(connection, Steps[from]);
        }

        Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id={ApplicationId}; PRAGMA user_version={version}"));
        transaction.Commit();
    }

    private static int Number(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Our own constant text.
        command.CommandText = sql;
#pragma warning restore CA2100
        return Convert.ToInt32(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Our own constant text.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
