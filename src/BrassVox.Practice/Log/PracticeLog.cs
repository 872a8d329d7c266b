using System.Globalization;
using System.Text.Json;
using BrassVox.Synthesis.Files;
using Microsoft.Data.Sqlite;

namespace BrassVox.Practice.Log;

/// <summary>
/// The log: what is searched and summarised of takes, body notes, practice, listening. One SQLite file in the data folder; every call opens,
/// commits and closes, so several instances share it and a crash leaves it whole. Once a call returns, what it wrote survives loss of power.
/// Blocks on the disk: never on a sound or screen thread. Every member throws <see cref="LogException"/> when the file cannot be used.
/// </summary>
public sealed partial class PracticeLog
{
    /// <summary>Name of the file in the data folder.</summary>
    public const string FileName = "log.db";

    private const string TimeFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
    private readonly LogOptions _options;

    /// <summary>Names the file; nothing is opened or made yet.</summary>
    /// <param name="dataFolder">The user's data folder.</param>
    public PracticeLog(string dataFolder)
        : this(dataFolder, new LogOptions())
    {
    }

    internal PracticeLog(string dataFolder, LogOptions options)
    {
        Path = System.IO.Path.GetFullPath(System.IO.Path.Combine(dataFolder, FileName));
        _options = options;
    }

    /// <summary>The file.</summary>
    public string Path { get; }

    /// <summary>Opens the log as for writing, which makes it or brings an older one to the present version.</summary>
    /// <returns>Null when it can be used, else why not.</returns>
    public LogFailure? Trouble()
    {
        try
        {
            LogConnection.OpenForWriting(Path, _options).Dispose();
            return null;
        }
        catch (LogException fault)
        {
            return fault.Failure;
        }
    }

    private static string Text(DateTimeOffset time) => time.UtcDateTime.ToString(TimeFormat, CultureInfo.InvariantCulture);

    private static DateTimeOffset Time(string text) =>
        DateTimeOffset.ParseExact(text, TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal);

    private static string Word<T>(T value)
        where T : struct, Enum
    {
        string name = value.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }

    private static T Value<T>(string word)
        where T : struct, Enum => Enum.Parse<T>(word, ignoreCase: true);

    private static double? Maybe(SqliteDataReader row, int column) => row.IsDBNull(column) ? null : row.GetDouble(column);

    private static SqliteCommand Command(SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The text is constant in every call; values are parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach ((string name, object? value) in values)
        {
            command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        }

        return command;
    }

    private static void Execute(SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        using SqliteCommand command = Command(connection, sql, values);
        command.ExecuteNonQuery();
    }

    /// <summary>One transaction, taken for writing from its beginning so that two instances queue up instead of colliding.</summary>
    private void Write(Action<SqliteConnection> write)
    {
        using SqliteConnection connection = LogConnection.OpenForWriting(Path, _options);
        LogConnection.Guarded(Path, () =>
        {
            using SqliteTransaction transaction = connection.BeginTransaction(deferred: false);
            write(connection);
            transaction.Commit();
            return true;
        });
    }

    private List<T> Rows<T>(string sql, Func<SqliteDataReader, T> read, params (string Name, object? Value)[] values)
    {
        List<T> rows = [];
        using SqliteConnection? connection = LogConnection.OpenForReading(Path, _options);
        return connection is null ? rows : LogConnection.Guarded(Path, () =>
        {
            using SqliteCommand command = Command(connection, sql, values);
            using SqliteDataReader reader = command.ExecuteReader();
            while (reader.Read())
            {
                rows.Add(Row(reader, read));
            }

            return rows;
        });
    }

    // The database may be whole, and what stands in a row not.
    private T Row<T>(SqliteDataReader reader, Func<SqliteDataReader, T> read)
    {
        try
        {
            return read(reader);
        }
        catch (Exception fault) when (fault is JsonException or FormatException or ArgumentException or InvalidCastException or OverflowException or InvalidOperationException)
        {
            throw new LogException(LogFailure.Of(LogFailureKind.Damaged, Path, PlainLine.Of(fault.Message.Split('\n')[0])), fault);
        }
    }
}
