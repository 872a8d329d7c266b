using BrassVox.Practice.Takes;
using Microsoft.Data.Sqlite;

namespace BrassVox.Practice.Log;

public sealed partial class PracticeLog
{
    /// <summary>Numbers are kept to a millionth, as files hold them, so that what was carried away and back is known again.</summary>
    private const int Digits = 6;

    /// <summary>All that the log holds.</summary>
    public LogContents Contents() => new(
        LogContents.Version, [.. Takes(TakeFilter.All).Select(take => take.Take)], BodyNotes(TakeFilter.All), Spells(TakeFilter.All), Listening(TakeFilter.All));

    /// <summary>Takes in what another log held; all of it or nothing. What is there already is not doubled.</summary>
    /// <param name="contents">The other log.</param>
    /// <returns>How many takes were new.</returns>
    public int Import(LogContents contents)
    {
        int taken = 0;
        HashSet<BodyNote> notes = [.. BodyNotes(TakeFilter.All).Select(note => note with { TakeId = null })];
        HashSet<PracticeSpell> spells = [.. Spells(TakeFilter.All)];
        HashSet<ListeningEntry> listening = [.. Listening(TakeFilter.All)];
        Write(connection =>
        {
            taken = 0;
            foreach (TakeRecord take in contents.Takes.Where(take => !Exists(connection, take.Id)))
            {
                Put(connection, take);
                taken++;
            }

            foreach (BodyNote note in contents.BodyNotes)
            {
                if (notes.Contains(note with { TakeId = null }))
                {
                    GiveBackTake(connection, note);
                }
                else
                {
                    Add(connection, note);
                }
            }

            foreach (PracticeSpell spell in contents.Spells.Where(spell => !spells.Contains(spell)))
            {
                Add(connection, spell);
            }

            foreach (ListeningEntry entry in contents.Listening.Where(entry => !listening.Contains(entry)))
            {
                Add(connection, entry);
            }
        });
        return taken;
    }

    private static void Add(SqliteConnection connection, BodyNote note) => Execute(
        connection,
        "INSERT INTO body_notes(at, player, tag, take_id, is_simulated) VALUES($at, $player, $tag, (SELECT id FROM takes WHERE id=$take), $simulated)",
        ("$at", Text(note.At)),
        ("$player", note.Player),
        ("$tag", Word(note.Tag)),
        ("$take", note.TakeId),
        ("$simulated", note.IsSimulated));

    // A note loses its take where that is deleted; where the take comes back, so does it.
    private static void GiveBackTake(SqliteConnection connection, BodyNote note) => Execute(
        connection,
        "UPDATE body_notes SET take_id=(SELECT id FROM takes WHERE id=$take) WHERE at=$at AND player=$player AND tag=$tag AND take_id IS NULL",
        ("$at", Text(note.At)),
        ("$player", note.Player),
        ("$tag", Word(note.Tag)),
        ("$take", note.TakeId));

    private static void Add(SqliteConnection connection, ListeningEntry entry) => Execute(
        connection,
        """
        INSERT INTO listening(at, player, exercise_id, trials, right, chance_share, error_percent, is_simulated)
        VALUES($at, $player, $exercise, $trials, $right, $chance, $error, $simulated)
        """,
        ("$at", Text(entry.At)),
        ("$player", entry.Player),
        ("$exercise", entry.ExerciseId),
        ("$trials", entry.Trials),
        ("$right", entry.Right),
        ("$chance", Math.Round(entry.ChanceShare, Digits)),
        ("$error", entry.ErrorPercent is { } error ? Math.Round(error, Digits) : null),
        ("$simulated", entry.IsSimulated));
}
