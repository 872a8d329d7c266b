using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Tests.Support;
using Microsoft.Data.Sqlite;

namespace BrassVox.Tests.Practice.Log;

/// <summary>A data folder of its own, and takes to fill it with.</summary>
internal sealed class LogRig : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("brassvox-log-").FullName;

    /// <summary>Logs as older versions left them.</summary>
    public static string Fixtures { get; } = Path.Combine(Repository.Root, "tests", "BrassVox.Tests", "Practice", "Log", "Fixtures");

    public PracticeLog Log => new(Folder);

    public static DateTimeOffset Monday { get; } = new(2026, 9, 7, 17, 30, 0, TimeSpan.Zero);

    /// <summary>A judged take of a simulated player.</summary>
    public static JudgedTake Judged(
        SimulatedTone? played = null, SimulatedTone? sung = null, string exercise = "open-home-pair", Instrument instrument = Instrument.Trombone, VoiceKind voice = VoiceKind.Low)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve(exercise, instrument, voice);
        IReadOnlyList<BrassVox.Analysis.AnalysisFrame> frames = SimulatedPlayer.Frames(resolved, played ?? new SimulatedTone(), sung ?? new SimulatedTone());
        return new JudgedTake(resolved, 1, new RecordedTake(new float[4800], 48000, 1.0), frames, BrassVox.Practice.Judging.TakeJudge.Judge(resolved, frames, 1.0));
    }

    /// <summary>A record of a simulated player's take.</summary>
    public static TakeRecord Record(string id, DateTimeOffset at, SimulatedTone? sung = null, string exercise = "open-home-pair", string? player = null) =>
        TakeRecord.Of(Judged(sung: sung, exercise: exercise), null, id, id + ".wav", at, withFrames: false) with { PlayerName = player };

    /// <summary>Asks the file itself, past all our own code.</summary>
    public object? Ask(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Log.Path};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }

    /// <summary>The log as an older version left it.</summary>
    public void MakeOlder(int version)
    {
        using var connection = new SqliteConnection($"Data Source={Log.Path};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = File.ReadAllText(Path.Combine(Fixtures, $"log-{version}.sql"));
        command.ExecuteNonQuery();
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
