using System.Globalization;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;

namespace BrassVox.Practice.Log;

/// <summary>How many takes the error map leaves out for one reason. Together with its cells' takes they are all takes. Pure.</summary>
/// <param name="Why">The reason.</param>
/// <param name="Takes">How many takes, at least 1.</param>
public sealed record LeftOut(WhyLeftOut Why, int Takes)
{
    /// <summary>True when they could not be judged: they count neither for nor against the player.</summary>
    public bool IsNotJudged => IsUnjudged(Why);

    /// <summary>In a word or two, after a number: of passages, in fog.</summary>
    public string InShort => Why switch
    {
        WhyLeftOut.OfPassage => "of passages",
        WhyLeftOut.DroneBleeds => "with drone",
        WhyLeftOut.NothingCameIn => "silent",
        WhyLeftOut.NoFigure => "without figures",
        _ => "not judged",
    };

    /// <summary>As the player would say it, after the number: 2 lay in fog, the two tones too near each other to be told apart.</summary>
    public string Words => string.Create(CultureInfo.InvariantCulture, $"{Takes} {Why switch
    {
        WhyLeftOut.OfPassage => Takes == 1 ? "is of a passage, many pairs in one" : "are of passages, many pairs each",
        WhyLeftOut.DroneBleeds => "with the drone bleeding in",
        WhyLeftOut.NothingCameIn => "where nothing came in",
        WhyLeftOut.Fog => "lay in fog, the two tones too near each other to be told apart",
        WhyLeftOut.NoBeats => "gave no beats to judge by",
        WhyLeftOut.UnderDrone => "lay under the program's own sound",
        WhyLeftOut.NotTold => "let a tone be told too briefly, or not which of the two it was",
        _ => "lacked a tone, had it on another note or in another octave, or were asked for what cents do not tell",
    }}");

    /// <summary>Why one take is in no cell; null when it is in one.</summary>
    /// <param name="take">The take.</param>
    public static WhyLeftOut? Of(LoggedTake take) =>
        take.Take.Drone is { IsTrusted: false } ? WhyLeftOut.DroneBleeds
        : take.Take.Result.Findings.Any(finding => finding.Criterion == JudgedTake.InputName) ? WhyLeftOut.NothingCameIn
        : take.Take.Result.AsAsked is null ? Unjudged(take.Take.Result)
        : take.Take.IsOfPassage ? WhyLeftOut.OfPassage
        : !TakeError.Of(take.Take).IsTold ? WhyLeftOut.NoFigure
        : null;

    /// <summary>All that the map leaves out, by reason; empty when it leaves out nothing.</summary>
    /// <param name="takes">The takes.</param>
    public static IReadOnlyList<LeftOut> Of(IEnumerable<LoggedTake> takes) =>
    [
        .. takes.Select(Of).OfType<WhyLeftOut>().GroupBy(why => why).OrderBy(group => group.Key).Select(group => new LeftOut(group.Key, group.Count())),
    ];

    /// <summary>The takes that could not be judged, in a sentence with their reasons; empty when all were.</summary>
    /// <param name="all">What the map leaves out.</param>
    public static string NotJudgedWords(IReadOnlyList<LeftOut> all)
    {
        LeftOut[] unjudged = [.. all.Where(some => some.IsNotJudged)];
        int takes = unjudged.Sum(some => some.Takes);
        return takes == 0 ? "" : string.Create(
            CultureInfo.InvariantCulture,
            $"{takes} {(takes == 1 ? "take" : "takes")} could not be judged and {(takes == 1 ? "counts" : "count")} neither for nor against you: {string.Join("; ", unjudged.Select(some => some.Words))}.");
    }

    /// <summary>Why a take could not be judged, in a few words; null where it could.</summary>
    /// <param name="why">Why it is in no cell; null when it is in one.</param>
    internal static string? NotJudged(WhyLeftOut? why) => why switch
    {
        WhyLeftOut.Fog => "in fog",
        WhyLeftOut.NoBeats => "no beats",
        WhyLeftOut.UnderDrone => "drone",
        WhyLeftOut.NotTold => "too brief",
        _ => null,
    };

    private static bool IsUnjudged(WhyLeftOut why) => NotJudged(why) is not null;

    // What was asked and not measured stands in the findings; an octave that fog hides is asked of nobody.
    private static WhyLeftOut Unjudged(TakeResult result)
    {
        Finding[] open = [.. result.Findings.Where(finding => finding.Verdict == Verdict.NotTold && finding.Criterion != PairCriteria.OctaveName)];
        return open.Any(finding => finding.Fault == Fault.Bleed) ? WhyLeftOut.UnderDrone
            : open.Any(finding => finding.Criterion is "landing" or "beatRate") ? WhyLeftOut.NoBeats
            : result.Pair.FogSeconds > result.Pair.SeparableSeconds ? WhyLeftOut.Fog
            : WhyLeftOut.NotTold;
    }
}
