using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;

namespace BrassVox.Practice.Planning;

/// <summary>All that a plan is drawn from.</summary>
/// <param name="Player">The player.</param>
/// <param name="Exercises">The curriculum.</param>
/// <param name="Takes">The player's takes, oldest first.</param>
/// <param name="Spells">The player's practice, oldest first.</param>
/// <param name="Notes">The player's body notes.</param>
/// <param name="Listening">The player's listening sets, oldest first.</param>
/// <param name="Wishes">Exercises sent to the plan.</param>
/// <param name="Now">Now.</param>
/// <param name="Zone">Where the player's days begin.</param>
/// <param name="Minutes">Minutes at hand, <see cref="DayDose.Fewest"/> to <see cref="DayDose.Most"/>; clamped.</param>
/// <param name="Choice">What the player makes of the body's advice.</param>
/// <param name="Swapped">Exercises that the player swapped away today; null for none.</param>
public sealed record PlanInputs(
    Player Player,
    ExerciseLibrary Exercises,
    IReadOnlyList<LoggedTake> Takes,
    IReadOnlyList<PracticeSpell> Spells,
    IReadOnlyList<BodyNote> Notes,
    IReadOnlyList<ListeningEntry> Listening,
    IReadOnlyList<string> Wishes,
    DateTimeOffset Now,
    TimeZoneInfo Zone,
    int Minutes,
    BodyChoice Choice = BodyChoice.AsAdvised,
    IReadOnlySet<string>? Swapped = null)
{
    /// <summary>Minutes a day that hold until the player says otherwise.</summary>
    public const int UsualMinutes = 28;

    /// <summary>The first line of a plan with exercises of which nothing was done on its day; null when none is left.</summary>
    /// <param name="plan">A plan drawn from these inputs.</param>
    public PlanLine? FirstUndone(PracticePlan plan)
    {
        HashSet<string> done = [.. Spells.Where(spell => WeekTrend.DayOf(spell.At, Zone) == plan.Day).Select(spell => spell.ExerciseId)];
        return plan.Lines.FirstOrDefault(line => line.Exercises.Count > 0 && !line.Exercises.Any(exercise => done.Contains(exercise.Exercise.Id)));
    }

    /// <summary>Reads a player's inputs from the log.</summary>
    /// <param name="log">The log.</param>
    /// <param name="player">The player.</param>
    /// <param name="exercises">The curriculum.</param>
    /// <param name="time">The clock.</param>
    /// <exception cref="LogException">The log cannot be used.</exception>
    public static PlanInputs Read(PracticeLog log, Player player, ExerciseLibrary exercises, TimeProvider time)
    {
        var filter = new TakeFilter(player.Name);
        return new PlanInputs(
            player, exercises, log.Takes(filter), log.Spells(filter), log.BodyNotes(filter), log.Listening(filter), log.Wishes(player.Name),
            time.GetUtcNow(), time.LocalTimeZone, log.PlanMinutes(player.Name) ?? UsualMinutes);
    }
}
