namespace BrassVox.Practice.Exercises;

/// <summary>An exercise as its file holds it: not yet resolved for a player.</summary>
/// <param name="FormatVersion">1.</param>
/// <param name="Id">Name in lower case with hyphens, unique.</param>
/// <param name="Number">Place in the curriculum, from 1.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="About">What the player learns, in a sentence or two.</param>
/// <param name="ListenFor">What there is to hear.</param>
/// <param name="Pair">Where the two tones come from.</param>
/// <param name="Dose">How much at a time.</param>
/// <param name="Prerequisites">Ids of exercises that come before.</param>
/// <param name="Cautions">What can hurt.</param>
/// <param name="Listening">The listening trials, or null.</param>
/// <param name="PlayAlong">The take, or null. Exactly one of the two is given.</param>
/// <param name="ShortName">The name where a column is narrow, at most <see cref="LongestShortName"/> characters; null where the name itself is that short.</param>
public sealed record Exercise(
    int FormatVersion,
    string Id,
    int Number,
    string Name,
    string Source,
    string About,
    string ListenFor,
    PairPlan Pair,
    Dose Dose,
    IReadOnlyList<string> Prerequisites,
    IReadOnlyList<Caution> Cautions,
    ListeningPlan? Listening = null,
    PlayAlongPlan? PlayAlong = null,
    string? ShortName = null)
{
    /// <summary>Most characters of a short name.</summary>
    public const int LongestShortName = 15;

    /// <summary>Number and short name: 13 Held entry.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public string InShort => FormattableString.Invariant($"{Number} {ShortName ?? Name}");

    /// <summary>True for a listening exercise, false for one to play along.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public bool IsListening => Listening is not null;
}
