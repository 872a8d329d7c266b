using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;

namespace BrassVox.Practice.Planning;

/// <summary>
/// Draws a day's plan from what the player's takes say, with a reason for each line. Pure: the same inputs give the same plan.
/// Nothing is scored, no days are counted in a row, and rest is a line like the others.
/// </summary>
/// <remarks>Which exercises train the ear (1 to 9), warm up (10 to 13) and use both tones (from 14), and all weights: our own, to be tried with players.</remarks>
public static class Planner
{
    private const int FirstWarmUp = 10;
    private const int LastWarmUp = 13;
    private const int WarmUpsAtOnce = 2;
    private const int FreshDays = 14;
    private const double WishWeight = 100;
    private const double MissedWeight = 4;
    private const double NewWeight = 2.5;
    private const double MostCellWeight = 2;
    private const double TodayWeight = -2;
    private const double PassedWeight = -1;
    private const double MatchWeight = 1.5;
    private const int LastTakes = 4;
    private const int LookBackDays = 7;

    /// <summary>The plan for the day of the inputs.</summary>
    /// <param name="inputs">What it is drawn from.</param>
    public static PracticePlan Plan(PlanInputs inputs)
    {
        DateOnly day = WeekTrend.DayOf(inputs.Now, inputs.Zone);
        VoiceLoad load = VoiceLoad.Of(inputs.Spells, inputs.Now, inputs.Zone);
        (string? body, bool listenOnly) = BodyAdvice.Of(inputs.Notes, load, inputs.Now, inputs.Zone);
        bool mayPlay = !listenOnly || inputs.Choice == BodyChoice.AsPlanned;
        PlanCandidate[] hearing = [.. Ranked(inputs, exercise => exercise.IsListening || (mayPlay && exercise.Number < FirstWarmUp), Hearing)];
        PlanCandidate[] playing = [.. Apart(Ranked(inputs, exercise => !exercise.IsListening && exercise.Number > LastWarmUp, Playing))];
        List<PlanLine> lines = [];
        int next = 0;
        int heard = 0;
        foreach ((PlanLineKind kind, int minutes) in inputs.Choice == BodyChoice.Rest ? [] : DayDose.Blocks(inputs.Minutes, mayPlay))
        {
            lines.Add(kind switch
            {
                PlanLineKind.Hearing => Line(kind, minutes, hearing, heard++, "no listening exercise fits"),
                PlanLineKind.WarmUp => WarmUp(inputs, minutes),
                PlanLineKind.Playing => Line(kind, minutes, playing, next++, "no playing exercise fits this voice and instrument"),
                PlanLineKind.Rest => new PlanLine(kind, minutes, [], "one block of singing is full"),
                _ => new PlanLine(kind, minutes, [], LookBack(inputs)),
            });
        }

        string[] reasons = playing.Length == 0 ? [] : [.. playing[0].Reasons.Where(reason => reason.Weight > 0 && reason.Because.Length > 0).Take(3).Select(reason => reason.Because)];

        // One reason stands beside its line already.
        string order = next > 0 && reasons.Length > 1 ? $"of what is played and sung, why {playing[0].Exercise.Exercise.Number} comes first: {string.Join(", ", reasons)}" : "";
        return new PracticePlan(day, Math.Clamp(inputs.Minutes, DayDose.Fewest, DayDose.Most), lines, Week(inputs, day), body, order);
    }

    /// <summary>The best of each exercise first, then the rest: two blocks of a day are two exercises.</summary>
    private static IEnumerable<PlanCandidate> Apart(IEnumerable<PlanCandidate> ranked)
    {
        PlanCandidate[] all = [.. ranked];
        PlanCandidate[] first = [.. all.DistinctBy(candidate => candidate.Exercise.Exercise.Id)];
        return first.Concat(all.Except(first));
    }

    private static bool IsWarmUp(Exercise exercise) => exercise is { IsListening: false, Number: >= FirstWarmUp and <= LastWarmUp };

    // What finds no second exercise repeats the first rather than leaving the block empty.
    private static PlanLine Line(PlanLineKind kind, int minutes, PlanCandidate[] ranked, int index, string whyNone) => ranked.Length switch
    {
        0 => new PlanLine(kind, minutes, [], whyNone),
        int count when index < count => new PlanLine(kind, minutes, [ranked[index].Exercise], ranked[index].Because),
        int count => new PlanLine(kind, minutes, [ranked[index % count].Exercise], "once more, rested"),
    };

    private static IEnumerable<PlanCandidate> Ranked(
        PlanInputs inputs, Func<Exercise, bool> wanted, Func<PlanInputs, ResolvedExercise, IEnumerable<(double Weight, string Because)>> reasons)
    {
        ResolvedExercise[] fitting =
        [
            .. inputs.Exercises.Exercises.Where(wanted)
                .Select(exercise => ExerciseResolver.Resolve(exercise, inputs.Player.Profile).Resolved).OfType<ResolvedExercise>(),
        ];
        ResolvedExercise[] open = [.. fitting.Where(exercise => IsOpen(inputs, exercise.Exercise))];
        int? firstNew = open.Where(exercise => !IsTouched(inputs, exercise.Exercise.Id)).Select(exercise => (int?)exercise.Exercise.Number).FirstOrDefault();
        ResolvedExercise[] candidates =
        [
            .. fitting.Where(exercise => IsTouched(inputs, exercise.Exercise.Id) || exercise.Exercise.Number == firstNew || inputs.Wishes.Contains(exercise.Exercise.Id)),
        ];
        if (candidates.Length == 0)
        {
            candidates = [.. fitting.Take(1)];
        }

        return candidates
            .SelectMany(exercise => WithOwnPairs(inputs, exercise))
            .Select(exercise => PlanCandidate.Of(exercise, reasons(inputs, exercise)))
            .OrderBy(candidate => inputs.Swapped?.Contains(candidate.Exercise.Exercise.Id) == true)
            .ThenByDescending(candidate => candidate.Weight)
            .ThenBy(candidate => candidate.Exercise.Exercise.Number)
            .ThenBy(candidate => candidate.Exercise.Pair.Played.MidiNumber);
    }

    /// <summary>An exercise on its home pair, and on every other pair that the player has taken it to.</summary>
    private static IEnumerable<ResolvedExercise> WithOwnPairs(PlanInputs inputs, ResolvedExercise exercise)
    {
        PairChoice home = new(exercise.Pair.Played, exercise.Pair.Sung);
        PairChoice[] own =
        [
            .. inputs.Takes.Where(take => take.Take.ExerciseId == exercise.Exercise.Id)
                .Select(take => new PairChoice(take.Take.Played, take.Take.Sung)).Distinct().Where(pair => pair != home),
        ];
        bool homeTaken = inputs.Takes.Any(take => take.Take.ExerciseId == exercise.Exercise.Id && IsOn(take, exercise));
        IEnumerable<ResolvedExercise> others = own
            .Where(pair => inputs.Player.Profile.CanSing(pair.Sung))
            .Select(pair => ExerciseResolver.Resolve(exercise.Exercise, inputs.Player.Profile, pair).Resolved).OfType<ResolvedExercise>();
        return homeTaken || own.Length == 0 ? others.Prepend(exercise) : others;
    }

    private static bool IsOn(LoggedTake take, ResolvedExercise exercise) => take.Take.Played == exercise.Pair.Played && take.Take.Sung == exercise.Pair.Sung;

    private static IEnumerable<(double Weight, string Because)> Hearing(PlanInputs inputs, ResolvedExercise exercise)
    {
        ListeningEntry[] sets = [.. inputs.Listening.Where(set => set.ExerciseId == exercise.Exercise.Id)];
        IntervalFamily family = IntervalFamilies.Of(exercise.Pair.Played, exercise.Pair.Sung);
        if (ErrorMap.Of(inputs.Takes).Cells.Where(cell => cell.Family == family && !cell.IsSound).MaxBy(Severity) is { } cell)
        {
            yield return (MatchWeight, cell.Words(inputs.Player.NoteNames));
        }

        if (sets.Length == 0)
        {
            yield return (NewWeight - 0.5, "not tried yet");
            yield break;
        }

        ListeningEntry last = sets[^1];
        Dose dose = exercise.Exercise.Dose;
        double missing = ((double)dose.Pass / dose.Takes) - ((double)last.Right / last.Trials);
        if (missing > 0)
        {
            yield return (1 + (MissedWeight * missing), FormattableString.Invariant($"last time {last.Right} right of {last.Trials}; aim {dose.Pass} of {dose.Takes}"));
        }

        yield return Rested(inputs, last.At);
    }

    private static IEnumerable<(double Weight, string Because)> Playing(PlanInputs inputs, ResolvedExercise exercise)
    {
        string id = exercise.Exercise.Id;
        if (inputs.Wishes.Contains(id))
        {
            yield return (WishWeight, "you sent it here from Takes");
        }

        LoggedTake[] all = [.. inputs.Takes.Where(take => take.Take.ExerciseId == id && take.IsScored && IsOn(take, exercise))];
        LoggedTake[] takes = [.. all.Where(take => take.IsJudged)];
        PracticeSpell[] spells = [.. inputs.Spells.Where(spell => spell.ExerciseId == id)];
        if (all.Length == 0 && spells.Length == 0)
        {
            yield return (NewWeight, "next in order");
            yield break;
        }

        if (takes.Length == 0 && all.Length > 0)
        {
            // What was not measured says nothing: it stands where it stood, next in order.
            string why = string.Join(", ", all.Select(take => take.WhyNotJudged).Distinct());
            yield return (NewWeight, all.Length == 1 ? $"not judged yet: its take was {Was(why)}" : FormattableString.Invariant($"not judged yet, {all.Length} takes: {why}"));
        }

        LoggedTake[] last = [.. takes.TakeLast(LastTakes)];
        int good = last.Count(take => take.Take.Result.AsAsked == true);
        double missed = last.Length == 0 ? 0 : MissedWeight * (last.Length - good) / last.Length;

        // What to work on goes before how often it failed.
        if (ErrorMap.Of(last).Cells is [{ } cell, ..])
        {
            // Of these takes alone, and said so: the map's cell holds takes of other exercises as well.
            string judged = Judged(all, last);
            string whose = last.Length == 1 ? $"its last {judged}take" : FormattableString.Invariant($"its last {last.Length} {judged}takes");

            // That something goes well is no reason to work on it.
            yield return (Math.Min(MostCellWeight, Severity(cell)) + (missed / 2), cell.IsSound ? "" : $"{whose}: {cell.What}");
        }

        if (missed > 0)
        {
            yield return (missed / 2, last.Length == 1
                ? $"its last {Judged(all, last)}take did not come as asked"
                : FormattableString.Invariant($"{good} of the last {last.Length} {Judged(all, last)}takes came as asked"));
        }

        // Only where nothing else has words.
        yield return (0, "to keep what stands");
        Dose dose = exercise.Exercise.Dose;
        if (good >= dose.Pass && last.Length >= dose.Pass)
        {
            yield return (PassedWeight, "");
        }

        DateTimeOffset at = all.Length > 0 ? all.Max(take => take.Take.MadeAt) : spells.Max(spell => spell.At);
        if (WeekTrend.DayOf(at, inputs.Zone) == WeekTrend.DayOf(inputs.Now, inputs.Zone))
        {
            yield return (TodayWeight, "");
        }

        yield return Rested(inputs, at);
    }

    // Only where takes that could not be judged lie among them or after them.
    private static string Judged(LoggedTake[] all, LoggedTake[] last) => last.Length < all.Length - Array.IndexOf(all, last[0]) ? "judged " : "";

    private static string Was(string why) => why switch { "no beats" => "without beats", "drone" => "under the drone", _ => why };

    // Offsets, wander and drift against what the player aims at; beats against what was called still, one a second over Bb2.
    private static double Severity(ErrorCell cell) => cell.IsMostlyOtherNote ? MostCellWeight : cell.Kind == ErrorKind.Beats ? cell.BeatsOverStill : cell.Value / 15;

    private static (double Weight, string Because) Rested(PlanInputs inputs, DateTimeOffset at)
    {
        int days = WeekTrend.DayOf(inputs.Now, inputs.Zone).DayNumber - WeekTrend.DayOf(at, inputs.Zone).DayNumber;
        return (Math.Clamp(days, 0, FreshDays) / (double)FreshDays, days > 1 ? FormattableString.Invariant($"{days} days untouched") : "");
    }

    private static PlanLine WarmUp(PlanInputs inputs, int minutes)
    {
        ResolvedExercise[] all =
        [
            .. inputs.Exercises.Exercises.Where(IsWarmUp)
                .Select(exercise => ExerciseResolver.Resolve(exercise, inputs.Player.Profile).Resolved).OfType<ResolvedExercise>()
                .OrderBy(exercise => inputs.Spells.Where(spell => spell.ExerciseId == exercise.Exercise.Id).Select(spell => (DateTimeOffset?)spell.At).LastOrDefault() ?? DateTimeOffset.MinValue)
                .ThenBy(exercise => exercise.Exercise.Number)
                .Take(WarmUpsAtOnce)
                .OrderBy(exercise => exercise.Exercise.Number),
        ];
        return new PlanLine(PlanLineKind.WarmUp, minutes, all, all.Length > 0 ? "voice and lips apart, then together" : "no warm-up fits this voice");
    }

    private static bool IsOpen(PlanInputs inputs, Exercise exercise) => exercise.Prerequisites.All(id => IsTouched(inputs, id) || inputs.Exercises.Find(id) is null);

    private static bool IsTouched(PlanInputs inputs, string id) =>
        inputs.Listening.Any(set => set.ExerciseId == id) || inputs.Takes.Any(take => take.Take.ExerciseId == id) || inputs.Spells.Any(spell => spell.ExerciseId == id);

    private static string LookBack(PlanInputs inputs)
    {
        int closed = inputs.Takes.Count(take => take.Take.Said is null && (inputs.Now - take.Take.MadeAt).TotalDays <= LookBackDays);
        return closed switch
        {
            0 => "what you said, beside what was measured",
            1 => "one take still closed",
            _ => FormattableString.Invariant($"{closed} takes still closed"),
        };
    }

    private static PlanDay[] Week(PlanInputs inputs, DateOnly day)
    {
        const int PracticeDays = 5;
        DateOnly monday = WeekTrend.MondayOf(day);
        ILookup<DateOnly, PracticeSpell> spells = inputs.Spells.ToLookup(spell => WeekTrend.DayOf(spell.At, inputs.Zone));
        return [.. Enumerable.Range(0, 7).Select(i => monday.AddDays(i)).Select((date, i) => new PlanDay(
            date, i < PracticeDays ? Math.Clamp(inputs.Minutes, DayDose.Fewest, DayDose.Most) : 0,
            spells[date].Sum(spell => spell.Seconds) / 60, spells[date].Sum(spell => spell.SungSeconds) / 60))];
    }
}
