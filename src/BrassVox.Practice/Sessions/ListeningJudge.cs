using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Sessions;

/// <summary>Turns answered trials into what a listener can tell. Pure.</summary>
public static class ListeningJudge
{
    /// <summary>Judges the answers given so far.</summary>
    /// <param name="exercise">The listening exercise.</param>
    /// <param name="trials">Answered trials, any number.</param>
    /// <param name="search">The search that chose the trials; null when nothing was searched for.</param>
    /// <param name="scale">Its scale; null likewise.</param>
    /// <exception cref="ArgumentException">The exercise is no listening exercise.</exception>
    public static ListeningResult Judge(
        Exercise exercise, IReadOnlyList<TrialResult> trials, ThresholdSearch? search = null, ThresholdScale? scale = null)
    {
        ListeningPlan plan = exercise.Listening ?? throw new ArgumentException($"{exercise.Id} is no listening exercise.", nameof(exercise));
        int right = trials.Count(trial => trial.Right);
        double chance = plan.Answer is ChoiceAnswer choice ? 1.0 / choice.Options.Count : 0;
        Estimate? share = trials.Count == 0 ? null : Estimate.OfProportion(right, trials.Count);
        double[] errors = [.. trials.Where(trial => trial.ErrorPercent is not null).Select(trial => trial.ErrorPercent!.Value)];
        Estimate? error = Estimate.OfMedian([.. errors.Select(Math.Abs)]);
        LevelShare[] levels = plan.Difficulty is null ? [] : [.. plan.Difficulty.Values
            .Select(value => (value, trials.Where(trial => Math.Abs(trial.Trial.Difficulty ?? double.NaN) == Math.Abs(value)).ToArray()))
            .Where(level => level.Item2.Length > 0)
            .Select(level => new LevelShare(level.value, level.Item2.Count(trial => trial.Right), level.Item2.Length))];
        return new ListeningResult(exercise.Id, [.. trials], share, chance, error, levels, Says(exercise, plan, trials, share, chance, error, errors) + Threshold(plan, search, scale))
        {
            ThresholdDb = search?.Threshold,
        };
    }

    private static string Threshold(ListeningPlan plan, ThresholdSearch? search, ThresholdScale? scale)
    {
        if (search?.Threshold is not { } found || scale is null)
        {
            return "";
        }

        string Value(double levelDb) => scale.IsDepth
            ? string.Create(CultureInfo.InvariantCulture, $"{scale.ValueAt(levelDb):0.00}")
            : string.Create(CultureInfo.InvariantCulture, $"{levelDb:0} dB");
        if (search.IsOverAll)
        {
            return $" Not even the easiest {plan.Difficulty!.Name} was told, so there is no threshold yet.";
        }

        if (search.IsUnderAll)
        {
            return $" You tell less {plan.Difficulty!.Name} than can be sounded here.";
        }

        string more = search.Count < ThresholdSearch.TrialsNeeded ? $" {ThresholdSearch.TrialsNeeded} answers make a first threshold." : "";
        return $" Your threshold for {plan.Difficulty!.Name} is {Value(found.Value)}, likely between {Value(found.Low)} and {Value(found.High)}.{more}";
    }

    private static string Says(
        Exercise exercise, ListeningPlan plan, IReadOnlyList<TrialResult> trials, Estimate? share, double chance, Estimate? error, double[] errors)
    {
        if (share is not { } told)
        {
            return "Nothing can be told before the first answer.";
        }

        List<string> parts = [];
        if (plan.Answer is RateAnswer rate)
        {
            parts.Add(error is { } e
                ? string.Create(CultureInfo.InvariantCulture, $"Your counting is off by {e.Value:0} per cent, likely between {e.Low:0} and {e.High:0}; aim {rate.WithinPercent:0}.")
                : $"{trials.Count} answered; six trials give a first estimate.");
            if (errors.Length >= 3 && Median.Of(errors) < -35)
            {
                parts.Add("Slow by about half: you may be counting every second swell. Listen for the quiet gap.");
            }
        }
        else
        {
            parts.Add(string.Create(CultureInfo.InvariantCulture,
                $"{trials.Count(trial => trial.Right)} of {trials.Count} told; of all such trials likely {100 * told.Low:0} to {100 * told.High:0} per cent."));
            if (chance > 0)
            {
                parts.Add(told.Low > chance
                    ? string.Create(CultureInfo.InvariantCulture, $"That is more than guessing ({100 * chance:0}).")
                    : string.Create(CultureInfo.InvariantCulture, $"Guessing gives {100 * chance:0}: not yet told apart from that."));
            }
        }

        bool enough = trials.Count >= exercise.Dose.Takes;
        if (enough && trials.Count(trial => trial.Right) < exercise.Dose.Pass && plan.Hint is { } hint)
        {
            parts.Add(hint);
        }

        return string.Join(' ', parts);
    }
}
