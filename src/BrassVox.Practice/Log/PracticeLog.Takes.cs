using BrassVox.Practice.Judging;
using BrassVox.Practice.Takes;
using Microsoft.Data.Sqlite;

namespace BrassVox.Practice.Log;

public sealed partial class PracticeLog
{
    private const string PutTake =
        """
        INSERT INTO takes(id, made_at, player, is_simulated, exercise_id, exercise_number, instrument, voice, played_midi, sung_midi, tuning, a4_hz,
          aim, as_asked, reached, played_offset_cents, played_spread_cents, played_drift_cents, sung_offset_cents, sung_spread_cents, sung_drift_cents,
          beats_per_second, fog_seconds, sung_seconds, is_scored, sure, said_right, said_told, record)
        VALUES($id, $made, $player, $simulated, $exercise, $number, $instrument, $voice, $played, $sung, $tuning, $a4,
          $aim, $asAsked, $reached, $po, $ps, $pd, $so, $ss, $sd, $beats, $fog, $sungSeconds, $scored, $sure, $right, $told, $record)
        ON CONFLICT(id) DO UPDATE SET made_at=excluded.made_at, player=excluded.player, is_simulated=excluded.is_simulated,
          exercise_id=excluded.exercise_id, exercise_number=excluded.exercise_number, instrument=excluded.instrument, voice=excluded.voice,
          played_midi=excluded.played_midi, sung_midi=excluded.sung_midi, tuning=excluded.tuning, a4_hz=excluded.a4_hz, aim=excluded.aim,
          as_asked=excluded.as_asked, reached=excluded.reached, played_offset_cents=excluded.played_offset_cents,
          played_spread_cents=excluded.played_spread_cents, played_drift_cents=excluded.played_drift_cents,
          sung_offset_cents=excluded.sung_offset_cents, sung_spread_cents=excluded.sung_spread_cents, sung_drift_cents=excluded.sung_drift_cents,
          beats_per_second=excluded.beats_per_second, fog_seconds=excluded.fog_seconds, sung_seconds=excluded.sung_seconds,
          is_scored=excluded.is_scored, sure=excluded.sure, said_right=excluded.said_right, said_told=excluded.said_told, record=excluded.record
        """;

    /// <summary>Enters new takes and the practice that they were; all of them or none. One that is there already is brought up to date and counted once.</summary>
    /// <param name="takes">The takes; frames are left out.</param>
    public void Enter(params IReadOnlyList<TakeRecord> takes) => Write(connection =>
    {
        foreach (TakeRecord take in takes.Select(take => take.Present()))
        {
            bool isNew = !Exists(connection, take.Id);
            Put(connection, take);
            if (isNew)
            {
                Add(connection, PracticeSpell.Of(take));
            }
        }
    });

    /// <summary>
    /// Enters takes that only their files told of; all of them or none. One that is there by now is left alone: whoever entered it may have
    /// changed it since its file was read.
    /// </summary>
    /// <param name="takes">The takes; frames are left out.</param>
    public void EnterFound(params IReadOnlyList<TakeRecord> takes) => Write(connection =>
    {
        foreach (TakeRecord take in takes)
        {
            if (!Exists(connection, take.Id))
            {
                Put(connection, take);
                Add(connection, PracticeSpell.Of(take));
            }
        }
    });

    /// <summary>Changes a take, in its file and here, with no deletion in between; one that was never entered is entered and counted.</summary>
    /// <param name="take">The take as it is to be; frames are left out.</param>
    /// <param name="writeFile">Writes its file; false where that is gone.</param>
    /// <returns>False where the take is gone or on its way out: nothing is changed.</returns>
    public bool Change(TakeRecord take, Func<bool> writeFile)
    {
        bool isThere = false;
        Write(connection =>
        {
            bool isNew = !Exists(connection, take.Id);
            isThere = !IsLeaving(connection, take.Id) && writeFile();
            if (isThere)
            {
                Put(connection, take);
            }

            if (isThere && isNew)
            {
                Add(connection, PracticeSpell.Of(take));
            }
        });
        return isThere;
    }

    /// <summary>Ids of all takes, those on their way out as well.</summary>
    public IReadOnlySet<string> Ids() => Rows("SELECT id FROM takes", row => row.GetString(0)).ToHashSet(StringComparer.Ordinal);

    /// <summary>Takes, oldest first.</summary>
    /// <param name="filter">Which.</param>
    public IReadOnlyList<LoggedTake> Takes(TakeFilter filter)
    {
        ILookup<string, BodyTag> tags = Rows(
            "SELECT take_id, tag FROM body_notes WHERE take_id IS NOT NULL ORDER BY id",
            row => (Take: row.GetString(0), Tag: Value<BodyTag>(row.GetString(1)))).ToLookup(note => note.Take, note => note.Tag, StringComparer.Ordinal);
        return Rows(
            """
            SELECT record FROM takes WHERE is_leaving=0 AND ($player IS NULL OR player=$player) AND ($exercise IS NULL OR exercise_id=$exercise)
              AND ($from IS NULL OR made_at>=$from) AND ($before IS NULL OR made_at<$before) ORDER BY made_at, id
            """,
            row =>
            {
                TakeRecord take = TakeJson.Read(row.GetString(0));
                return new LoggedTake(take, [.. tags[take.Id]]);
            },
            ("$player", filter.Player),
            ("$exercise", filter.ExerciseId),
            ("$from", filter.From is { } from ? Text(from) : null),
            ("$before", filter.Before is { } before ? Text(before) : null));
    }

    /// <summary>Names of the players who have takes, in alphabetical order.</summary>
    public IReadOnlyList<string> Players() => Rows("SELECT DISTINCT player FROM takes WHERE is_leaving=0 ORDER BY player", row => row.GetString(0));

    /// <summary>How many takes there are of a player; of all when null.</summary>
    /// <param name="player">Name of the player's profile.</param>
    public int CountTakes(string? player = null) => Rows(
        "SELECT count(*) FROM takes WHERE is_leaving=0 AND ($player IS NULL OR player=$player)", row => row.GetInt32(0), ("$player", player)).FirstOrDefault();

    /// <summary>How often each fault was found in the takes of an exercise, most often first.</summary>
    /// <param name="filter">Which takes.</param>
    public IReadOnlyList<(Fault Fault, int Times)> Faults(TakeFilter filter) => Rows(
        """
        SELECT fault, count(*) FROM findings JOIN takes ON takes.id=take_id WHERE verdict='missed' AND is_leaving=0 AND is_scored=1
          AND ($player IS NULL OR player=$player) AND ($exercise IS NULL OR exercise_id=$exercise)
          AND ($from IS NULL OR made_at>=$from) AND ($before IS NULL OR made_at<$before)
        GROUP BY fault ORDER BY count(*) DESC, fault
        """,
        row => (Value<Fault>(row.GetString(0)), row.GetInt32(1)),
        ("$player", filter.Player),
        ("$exercise", filter.ExerciseId),
        ("$from", filter.From is { } from ? Text(from) : null),
        ("$before", filter.Before is { } before ? Text(before) : null));

    /// <summary>Marks takes as on their way out: they are listed no more, and an interrupted deletion is finished at the next start.</summary>
    /// <param name="ids">The takes.</param>
    public void BeginDeleting(IReadOnlyList<string> ids) => ForEach(ids, "UPDATE takes SET is_leaving=1 WHERE id=$id");

    /// <summary>Takes that are on their way out.</summary>
    public IReadOnlyList<string> Leaving() => Rows("SELECT id FROM takes WHERE is_leaving=1", row => row.GetString(0));

    /// <summary>Deletes the rows of takes, overwriting what they held. Files are the store's.</summary>
    /// <param name="ids">The takes.</param>
    public void Delete(IReadOnlyList<string> ids)
    {
        ForEach(ids, "DELETE FROM takes WHERE id=$id");
        Overwrite();
    }

    // What was deleted may still stand in the file beside the log until that is emptied.
    private void Overwrite()
    {
        using SqliteConnection connection = LogConnection.OpenForWriting(Path, _options);
        LogConnection.Guarded(Path, () =>
        {
            Execute(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
            return true;
        });
    }

    private void ForEach(IReadOnlyList<string> ids, string sql) => Write(connection =>
    {
        foreach (string id in ids)
        {
            Execute(connection, sql, ("$id", id));
        }
    });

    private static bool Exists(SqliteConnection connection, string id) => HasRow(connection, "SELECT 1 FROM takes WHERE id=$id", id);

    private static bool IsLeaving(SqliteConnection connection, string id) => HasRow(connection, "SELECT 1 FROM takes WHERE id=$id AND is_leaving=1", id);

    private static bool HasRow(SqliteConnection connection, string sql, string id)
    {
        using SqliteCommand command = Command(connection, sql, ("$id", id));
        return command.ExecuteScalar() is not null;
    }

    private static void Put(SqliteConnection connection, TakeRecord take)
    {
        take = take.Present();
        TakeResult result = take.Result;
        IReadOnlyList<SayingCheck> checks = take.Said is { } said ? Sayings.Compare(said, result) : [];
        Execute(
            connection,
            PutTake,
            ("$id", take.Id),
            ("$made", Text(take.MadeAt)),
            ("$player", take.PlayerName ?? ""),
            ("$simulated", take.IsSimulated),
            ("$exercise", take.ExerciseId),
            ("$number", take.ExerciseNumber),
            ("$instrument", Word(take.Player.Instrument)),
            ("$voice", Word(take.Player.Voice)),
            ("$played", take.Played.MidiNumber),
            ("$sung", take.Sung.MidiNumber),
            ("$tuning", take.Tuning),
            ("$a4", take.Player.A4Hz),
            ("$aim", result.Aim.ToString()),
            ("$asAsked", result.AsAsked),
            ("$reached", result.Reached?.ToString()),
            ("$po", result.Played?.OffsetCents),
            ("$ps", result.Played?.SpreadCents),
            ("$pd", result.Played?.DriftCents),
            ("$so", result.Sung?.OffsetCents),
            ("$ss", result.Sung?.SpreadCents),
            ("$sd", result.Sung?.DriftCents),
            ("$beats", result.Pair.MedianBeatsPerSecond),
            ("$fog", result.Pair.FogSeconds),
            ("$sungSeconds", result.Sung?.HeardSeconds ?? 0),
            ("$scored", new LoggedTake(take, []).IsScored),
            ("$sure", take.Said is { } saying ? Word(saying.Sure) : null),
            ("$right", checks.Count(check => check.IsRight == true)),
            ("$told", checks.Count(check => check.IsRight is not null)),
            ("$record", (take with { Frames = [] }).ToJson(indented: false)));
        Execute(connection, "DELETE FROM findings WHERE take_id=$id", ("$id", take.Id));
        for (int i = 0; i < result.Findings.Count; i++)
        {
            Finding finding = result.Findings[i];
            Execute(
                connection,
                "INSERT INTO findings VALUES($id, $place, $step, $criterion, $role, $verdict, $fault, $value, $unit)",
                ("$id", take.Id),
                ("$place", i),
                ("$step", finding.StepId),
                ("$criterion", finding.Criterion),
                ("$role", finding.Role is { } role ? Word(role) : null),
                ("$verdict", Word(finding.Verdict)),
                ("$fault", Word(finding.Fault)),
                ("$value", finding.Value),
                ("$unit", finding.Unit));
        }
    }
}
