using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Log;

/// <summary>How often a player was right when they said how sure they were.</summary>
/// <param name="Sure">What was said.</param>
/// <param name="Right">Sentences of which every part that could be told was right.</param>
/// <param name="Said">Sentences.</param>
public sealed record SurenessFigure(Sureness Sure, int Right, int Said)
{
    /// <summary>The last sentences of each sureness, guessing first; those never said are left out. Pure.</summary>
    /// <param name="takes">Takes, oldest first.</param>
    /// <param name="last">How many sentences of each at most.</param>
    public static IReadOnlyList<SurenessFigure> Of(IEnumerable<LoggedTake> takes, int last = 10) => [.. takes
        .Where(take => take.IsScored && take.Take.Said is not null)
        .Select(take => (take.Take.Said!.Sure, Checks: Sayings.Compare(take.Take.Said, take.Take.Result)))
        .Where(take => take.Checks.Any(check => check.IsRight is not null))
        .GroupBy(take => take.Sure)
        .OrderBy(group => group.Key)
        .Select(group => (group.Key, Last: group.TakeLast(last).ToArray()))
        .Select(group => new SurenessFigure(group.Key, group.Last.Count(take => take.Checks.All(check => check.IsRight != false)), group.Last.Length))];

    /// <summary>What was said, in a word or two: fairly sure.</summary>
    public string Word => Sure == Sureness.FairlySure ? "fairly sure" : Sure.ToString().ToLowerInvariant();

    /// <summary>In words: certain: right 3 times of the last 8.</summary>
    public string Words => Said == 1
        ? $"{Word}, for the first time: {(Right == 1 ? "right" : "not right")}"
        : Right == 0 ? FormattableString.Invariant($"{Word}: not once right in the last {Said}")
        : FormattableString.Invariant($"{Word}: right {Times} of the last {Said}");

    private string Times => Right switch { 1 => "once", 2 => "twice", _ => FormattableString.Invariant($"{Right} times") };
}
