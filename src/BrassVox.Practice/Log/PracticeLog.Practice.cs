using Microsoft.Data.Sqlite;

namespace BrassVox.Practice.Log;

public sealed partial class PracticeLog
{
    private const string Between = "($player IS NULL OR player=$player) AND ($from IS NULL OR at>=$from) AND ($before IS NULL OR at<$before) ORDER BY at, id";

    /// <summary>Adds body notes.</summary>
    /// <param name="notes">The notes; one of a take that is not in the log keeps its tag and loses the take.</param>
    public void Add(params IReadOnlyList<BodyNote> notes) => Write(connection =>
    {
        foreach (BodyNote note in notes)
        {
            Add(connection, note);
        }
    });

    /// <summary>Takes a tag of a take back.</summary>
    /// <param name="takeId">The take.</param>
    /// <param name="tag">The tag.</param>
    public void RemoveTag(string takeId, BodyTag tag) => Write(connection =>
        Execute(connection, "DELETE FROM body_notes WHERE take_id=$take AND tag=$tag", ("$take", takeId), ("$tag", Word(tag))));

    /// <summary>Deletes body notes for good, overwriting what they held.</summary>
    /// <param name="notes">The notes, as <see cref="BodyNotes"/> gives them; one that is not there any more is passed over.</param>
    public void Delete(IReadOnlyList<BodyNote> notes)
    {
        Write(connection =>
        {
            foreach (BodyNote note in notes)
            {
                Execute(
                    connection,
                    "DELETE FROM body_notes WHERE at=$at AND player=$player AND tag=$tag AND take_id IS $take AND is_simulated=$simulated",
                    ("$at", Text(note.At)),
                    ("$player", note.Player),
                    ("$tag", Word(note.Tag)),
                    ("$take", note.TakeId),
                    ("$simulated", note.IsSimulated));
            }
        });
        Overwrite();
    }

    /// <summary>Body notes, oldest first.</summary>
    /// <param name="filter">Which; its exercise is passed over.</param>
    public IReadOnlyList<BodyNote> BodyNotes(TakeFilter filter) => Rows(
        $"SELECT at, player, tag, take_id, is_simulated FROM body_notes WHERE {Between}",
        row => new BodyNote(Time(row.GetString(0)), row.GetString(1), Value<BodyTag>(row.GetString(2)), row.IsDBNull(3) ? null : row.GetString(3), row.GetBoolean(4)),
        Limits(filter));

    /// <summary>Adds stretches of practice.</summary>
    /// <param name="spells">The stretches.</param>
    public void Add(params IReadOnlyList<PracticeSpell> spells) => Write(connection =>
    {
        foreach (PracticeSpell spell in spells)
        {
            Add(connection, spell);
        }
    });

    /// <summary>Stretches of practice, oldest first.</summary>
    /// <param name="filter">Which; its exercise is passed over.</param>
    public IReadOnlyList<PracticeSpell> Spells(TakeFilter filter) => Rows(
        $"SELECT at, player, exercise_id, seconds, sung_seconds, is_simulated FROM spells WHERE {Between}",
        row => new PracticeSpell(Time(row.GetString(0)), row.GetString(1), row.GetString(2), row.GetDouble(3), row.GetDouble(4), row.GetBoolean(5)),
        Limits(filter));

    /// <summary>Adds listening sets.</summary>
    /// <param name="entries">The sets.</param>
    public void Add(params IReadOnlyList<ListeningEntry> entries) => Write(connection =>
    {
        foreach (ListeningEntry entry in entries)
        {
            Add(connection, entry);
        }
    });

    /// <summary>Listening sets, oldest first.</summary>
    /// <param name="filter">Which; its exercise is passed over.</param>
    public IReadOnlyList<ListeningEntry> Listening(TakeFilter filter) => Rows(
        $"SELECT at, player, exercise_id, trials, right, chance_share, error_percent, is_simulated FROM listening WHERE {Between}",
        row => new ListeningEntry(
            Time(row.GetString(0)), row.GetString(1), row.GetString(2), row.GetInt32(3), row.GetInt32(4), row.GetDouble(5), Maybe(row, 6), row.GetBoolean(7)),
        Limits(filter));

    /// <summary>Minutes a day that a player wants planned; null when never said.</summary>
    /// <param name="player">Name of the player's profile.</param>
    public int? PlanMinutes(string player) => Rows(
        "SELECT minutes FROM plan_minutes WHERE player=$player", row => (int?)row.GetInt32(0), ("$player", player)).FirstOrDefault();

    /// <summary>Remembers the minutes a day.</summary>
    /// <param name="player">Name of the player's profile.</param>
    /// <param name="minutes">Minutes a day.</param>
    public void SetPlanMinutes(string player, int minutes) => Write(connection => Execute(
        connection,
        "INSERT INTO plan_minutes VALUES($player, $minutes) ON CONFLICT(player) DO UPDATE SET minutes=excluded.minutes",
        ("$player", player),
        ("$minutes", minutes)));

    /// <summary>Puts an exercise on the plan, until it is next played.</summary>
    /// <param name="player">Name of the player's profile.</param>
    /// <param name="exerciseId">The exercise.</param>
    /// <param name="at">When it was asked for.</param>
    public void Wish(string player, string exerciseId, DateTimeOffset at) => Write(connection => Execute(
        connection,
        "INSERT INTO plan_wishes VALUES($player, $exercise, $at) ON CONFLICT(player, exercise_id) DO UPDATE SET at=excluded.at",
        ("$player", player),
        ("$exercise", exerciseId),
        ("$at", Text(at))));

    /// <summary>Takes an exercise off the plan again.</summary>
    /// <param name="player">Name of the player's profile.</param>
    /// <param name="exerciseId">The exercise.</param>
    public void Unwish(string player, string exerciseId) => Write(connection => Execute(
        connection, "DELETE FROM plan_wishes WHERE player=$player AND exercise_id=$exercise", ("$player", player), ("$exercise", exerciseId)));

    /// <summary>Exercises asked for and not played since, oldest wish first.</summary>
    /// <param name="player">Name of the player's profile.</param>
    public IReadOnlyList<string> Wishes(string player) => Rows(
        """
        SELECT exercise_id FROM plan_wishes AS wish WHERE player=$player
          AND NOT EXISTS(SELECT 1 FROM takes WHERE takes.player=wish.player AND takes.exercise_id=wish.exercise_id AND takes.made_at>wish.at)
        ORDER BY at, exercise_id
        """,
        row => row.GetString(0),
        ("$player", player));

    private static void Add(SqliteConnection connection, PracticeSpell spell) => Execute(
        connection,
        "INSERT INTO spells(at, player, exercise_id, seconds, sung_seconds, is_simulated) VALUES($at, $player, $exercise, $seconds, $sung, $simulated)",
        ("$at", Text(spell.At)),
        ("$player", spell.Player),
        ("$exercise", spell.ExerciseId),
        ("$seconds", Math.Round(spell.Seconds, Digits)),
        ("$sung", Math.Round(spell.SungSeconds, Digits)),
        ("$simulated", spell.IsSimulated));

    private static (string Name, object? Value)[] Limits(TakeFilter filter) =>
    [
        ("$player", filter.Player),
        ("$from", filter.From is { } from ? Text(from) : null),
        ("$before", filter.Before is { } before ? Text(before) : null),
    ];
}
