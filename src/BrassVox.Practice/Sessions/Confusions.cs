namespace BrassVox.Practice.Sessions;

/// <summary>What was taken for what in a listening set: one line for each thing that sounded. Pure.</summary>
/// <param name="Truth">What sounded, or was to be done.</param>
/// <param name="Right">How often it was told.</param>
/// <param name="Times">How often it came, at least 1.</param>
/// <param name="Missed">What it was taken for, most often first, with how often: 2 taken for fourth.</param>
public sealed record Confusions(string Truth, int Right, int Times, IReadOnlyList<string> Missed)
{
    /// <summary>The whole line after <see cref="Truth"/>: 1 of 3 told; 2 taken for fourth.</summary>
    public string Words => string.Join("; ", [FormattableString.Invariant($"{Right} of {Times} told"), .. Missed]);

    /// <summary>The summary of a set, in the order of its answers; empty before the first one.</summary>
    /// <param name="trials">The answered trials, any number.</param>
    public static IReadOnlyList<Confusions> Of(IReadOnlyList<TrialResult> trials)
    {
        if (trials.Count == 0)
        {
            return [];
        }

        if (trials.All(trial => trial.ErrorPercent is not null))
        {
            TrialResult[] off = [.. trials.Where(trial => !trial.Right)];
            return [Line("beats", trials, [Some(off.Count(trial => trial.ErrorPercent < 0), "too slow"), Some(off.Count(trial => trial.ErrorPercent >= 0), "too fast")])];
        }

        List<string> order = [.. trials[0].Trial.Options];
        return
        [
            .. trials.GroupBy(trial => trial.Truth, StringComparer.Ordinal).OrderBy(truth => order.IndexOf(truth.Key)).Select(truth => Line(
                truth.Key,
                [.. truth],
                order.Count == 0
                    ? [Some(truth.Count(trial => !trial.Right), "left beating, or too late")]
                    : truth.Where(trial => !trial.Right).GroupBy(trial => trial.Answer, StringComparer.Ordinal)
                        .OrderByDescending(answer => answer.Count()).ThenBy(answer => order.IndexOf(answer.Key)).Select(answer => Some(answer.Count(), $"taken for {answer.Key}")))),
        ];
    }

    private static Confusions Line(string truth, IReadOnlyList<TrialResult> trials, IEnumerable<string> missed) =>
        new(truth, trials.Count(trial => trial.Right), trials.Count, [.. missed.Where(words => words.Length > 0)]);

    private static string Some(int count, string what) => count == 0 ? "" : FormattableString.Invariant($"{count} {what}");
}
