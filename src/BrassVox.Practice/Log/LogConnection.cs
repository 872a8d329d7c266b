using System.Globalization;
using BrassVox.Practice.Files;
using BrassVox.Synthesis.Files;
using Microsoft.Data.Sqlite;

namespace BrassVox.Practice.Log;

/// <summary>Opens connections to the log: durable, owner-only, checked and brought to the present version.</summary>
/// <remarks>
/// Source: SQLite documentation, "Write-Ahead Logging" and "Pragma statements": in WAL mode synchronous=FULL syncs after each commit, so a commit
/// survives loss of power; secure_delete overwrites deleted content with zeros; companion files take the database's permissions.
/// </remarks>
internal static class LogConnection
{
    private const int Busy = 5;
    private const int Locked = 6;
    private const int ReadOnly = 8;
    private const int NoMemory = 7;
    private const int InputOutput = 10;
    private const int Corrupt = 11;
    private const int Full = 13;
    private const int CannotOpen = 14;
    private const int Protocol = 15;
    private const int NotADatabase = 26;

    /// <summary>A connection for reading and writing; makes file and folder where they are missing.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">Waiting time and, for tests, limits.</param>
    /// <exception cref="LogException">It cannot be used.</exception>
    public static SqliteConnection OpenForWriting(string path, LogOptions options) => Guarded(path, () =>
    {
        MakeFile(path);
        SqliteConnection connection = Connect(path, SqliteOpenMode.ReadWrite, options);
        try
        {
            Check(connection, path);
            Execute(connection, "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; PRAGMA secure_delete=ON");
            if (options.MostPages is { } pages)
            {
                Execute(connection, string.Create(CultureInfo.InvariantCulture, $"PRAGMA max_page_count={pages}"));
            }

            if (LogSchema.IsOld(connection))
            {
                LogSchema.Migrate(connection, LogSchema.Version);
            }

            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    });

    /// <summary>A connection for reading: like the other, or without writing anything where writing is not allowed; null when there is no log yet.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">Waiting time.</param>
    /// <exception cref="LogException">It cannot be used.</exception>
    public static SqliteConnection? OpenForReading(string path, LogOptions options)
    {
        if (!File.Exists(path))
        {
            return null;
        }

        try
        {
            return OpenForWriting(path, options);
        }
        catch (LogException refused) when (refused.Failure.Kind is LogFailureKind.ReadOnly or LogFailureKind.CannotOpen or LogFailureKind.NoSpace or LogFailureKind.DiskTrouble)
        {
            return Guarded(path, () => OpenUnwritten(path, options));
        }
    }

    /// <summary>Runs something and turns what the database throws into a failure.</summary>
    public static T Guarded<T>(string path, Func<T> run)
    {
        try
        {
            return run();
        }
        catch (SqliteException fault)
        {
            throw new LogException(LogFailure.Of(KindOf(fault), path, PlainLine.Of(fault.Message.Split('\n')[0])), fault);
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException and not LogException)
        {
            throw new LogException(LogFailure.Of(LogFailureKind.CannotOpen, path, fault.Message), fault);
        }
    }

    private static LogFailureKind KindOf(SqliteException fault) => fault.SqliteErrorCode switch
    {
        Busy or Locked => LogFailureKind.Busy,
        ReadOnly => LogFailureKind.ReadOnly,
        Full => LogFailureKind.NoSpace,
        NotADatabase => LogFailureKind.Foreign,
        Corrupt => LogFailureKind.Damaged,
        NoMemory or InputOutput or Protocol => LogFailureKind.DiskTrouble,
        CannotOpen => LogFailureKind.CannotOpen,
        _ => LogFailureKind.Damaged,
    };

    // A folder that may not be written has no place for the companion files of WAL. Without them nobody else writes either: the file stands still.
    private static SqliteConnection OpenUnwritten(string path, LogOptions options)
    {
        bool standsStill = !File.Exists(path + "-wal");
        string source = standsStill ? $"{new Uri(path).AbsoluteUri}?immutable=1" : path;
        SqliteConnection connection = Connect(source, SqliteOpenMode.ReadOnly, options);
        try
        {
            Check(connection, path);
            return LogSchema.IsOld(connection)
                ? throw new LogException(LogFailure.Of(LogFailureKind.ReadOnly, path))
                : connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static SqliteConnection Connect(string source, SqliteOpenMode mode, LogOptions options)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder
        {
            DataSource = source,
            Mode = mode,
            Pooling = false,
            DefaultTimeout = options.BusySeconds,
        }.ToString());
        try
        {
            connection.Open();
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static void Check(SqliteConnection connection, string path)
    {
        if (LogSchema.Obstacle(connection) is { } obstacle)
        {
            throw new LogException(LogFailure.Of(obstacle, path));
        }
    }

    private static void MakeFile(string path)
    {
        if (File.Exists(path))
        {
            return;
        }

        OwnerOnly.MakeFolder(Path.GetDirectoryName(path)!);
        try
        {
            OwnerOnly.Open(path, FileMode.CreateNew).Dispose();
        }
        catch (IOException) when (File.Exists(path))
        {
            // Another instance made it in this moment.
        }
    }

    private static void Execute(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Our own text and a whole number.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
