using BrassVox.Practice.Demo;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;

namespace BrassVox.Benchmarks.Fuzz;

/// <summary>Takes to spoil: of two exercises, by a simulated player, with all that a log may hold beside them.</summary>
internal static class SomeTakes
{
    private static readonly DateTimeOffset Monday = new(2026, 9, 7, 17, 30, 0, TimeSpan.Zero);

    public static LogContents Log { get; } = new(
        LogContents.Version, [Take("open-home-pair", "a"), Take("voice-glides-to-the-octave", "b")],
        [new BodyNote(Monday, "A", BodyTag.Throat, "a", false), new BodyNote(Monday, "", BodyTag.TongueRoot, null, true)],
        [new PracticeSpell(Monday, "A", "open-home-pair", 120.5, 33.25, false)],
        [new ListeningEntry(Monday, "A", "count-the-beats", 12, 7, 0.25, 11.5, false)]);

    private static TakeRecord Take(string exerciseId, string id)
    {
        Exercise exercise = ExerciseLibrary.Load(ExerciseLibrary.ShippedFolder).Find(exerciseId)!;
        ResolvedExercise resolved = ExerciseResolver.Resolve(exercise, PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low)).Resolved!;
        IReadOnlyList<Analysis.AnalysisFrame> frames = new SimulatedTake(resolved, new SimulatedTone(), new SimulatedTone()).Frames(48000);
        var judged = new JudgedTake(
            resolved, 1, new RecordedTake(new float[4800], 48000, SimulatedTake.StartSeconds), frames, TakeJudge.Judge(resolved, frames, SimulatedTake.StartSeconds));
        TakeRecord whole = TakeRecord.Of(judged, null, id, id + ".wav", Monday, withFrames: true);
        return whole with { Frames = [.. whole.Frames.Take(3)], PlayerName = "A" };
    }
}

/// <summary>A log carried from elsewhere, as JSON or CSV: read, taken in, and looked at as the player would.</summary>
internal abstract class CarriedLogReader(string name, string ending) : DataReader(name, 1, [LogText(ending)])
{
    public override bool Read(byte[] input, string folder)
    {
        string path = Put(folder, "log" + ending, input);
        LogContents? contents = null;
        if (!Reads(() => contents = LogFile.Read(path)))
        {
            return false;
        }

        string data = Path.Combine(folder, "carried");
        try
        {
            new PracticeLog(data).Import(contents!);
        }
        catch (LogException told)
        {
            IsOneLine(told.Failure.Message);
            return false;
        }
        finally
        {
            if (contents!.Takes.Count + contents.Spells.Count < 500)
            {
                foreach (string[] words in new[] { new[] { "takes", "list" }, ["takes", "list", "--json"], ["takes", "map"], ["plan"] })
                {
                    ProgramReader.Run([.. words, "--data", data], "0");
                }
            }

            Directory.Delete(data, recursive: true);
        }

        return true;
    }

    private static string LogText(string ending) => ending == ".json" ? LogContentsJson.Text(SomeTakes.Log) : LogCsv.Text(SomeTakes.Log);
}

/// <summary>As JSON.</summary>
internal sealed class LogJsonReader() : CarriedLogReader("log-json", ".json");

/// <summary>As CSV, rows and cells spoiled.</summary>
internal sealed class LogCsvReader() : CarriedLogReader("log-csv", ".csv")
{
    private static readonly string Seed = LogCsv.Text(SomeTakes.Log);
    private static readonly string[] Dictionary = [",", "\"", "\r\n", "take", "body", "spell", "listening", "yes", "no", "Throat", "2026-09-07T17:30:00.000+00:00", "9999-12-31T23:59:59.999+14:00", "0001-01-01T00:00:00.000+14:00"];

    public override byte[] Make(Random random)
    {
        // Half of them keep the records whole and spoil the rows of figures, which come last.
        int at = random.Chance(2) ? Seed.IndexOf("\r\nbody", StringComparison.Ordinal) : 0;
        byte[] text = Utf8(Seed[..at] + Mutations.Words(random, Seed[at..], Dictionary));
        return random.Chance(8) ? Mutations.Bytes(random, text) : text;
    }
}

/// <summary>The record of a take in its folder.</summary>
internal sealed class TakeReader() : DataReader("take", 6, [.. SomeTakes.Log.Takes.Select(take => (take with { Id = "a" }).ToJson(indented: false))])
{
    public override bool Read(byte[] input, string folder)
    {
        string takes = Path.Combine(folder, "takes");
        Put(takes, "a.json", input);
        (TakeRecord? record, string? problem) = new TakeFiles(takes).Read("a");
        if (record is null)
        {
            IsOneLine(problem);
        }

        return record is not null;
    }
}

/// <summary>The database itself, with bytes of the disk gone bad.</summary>
internal sealed class DatabaseReader() : FuzzReader("database", 1)
{
    private static readonly byte[] Seed = Database();

    public override byte[] Make(Random random)
    {
        byte[] bytes = [.. Seed];
        for (int i = 1 << random.Next(6); i > 0; i--)
        {
            bytes[random.Chance(3) ? random.Next(200) : random.Next(bytes.Length)] = (byte)random.Next(256);
        }

        return random.Chance(6) ? bytes[..random.Next(bytes.Length)] : bytes;
    }

    public override bool Read(byte[] input, string folder)
    {
        string data = Path.Combine(folder, "bad");
        Directory.CreateDirectory(data);
        File.WriteAllBytes(Path.Combine(data, PracticeLog.FileName), input);
        try
        {
            var log = new PracticeLog(data);
            log.Contents();
            log.Import(SomeTakes.Log with { Takes = [SomeTakes.Log.Takes[0] with { Id = "c" }] });
            return true;
        }
        catch (LogException told)
        {
            IsOneLine(told.Failure.Message);
            return false;
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    private static byte[] Database()
    {
        string data = Directory.CreateTempSubdirectory("brassvox-fuzz-").FullName;
        try
        {
            var log = new PracticeLog(data);
            log.Import(SomeTakes.Log);
            return File.ReadAllBytes(log.Path);
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }
}
