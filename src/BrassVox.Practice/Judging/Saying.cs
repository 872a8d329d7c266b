namespace BrassVox.Practice.Judging;

/// <summary>The sentence a player finishes before looking.</summary>
/// <param name="Played">My played tone was low, true, high; null when P was not asked for.</param>
/// <param name="Sung">My sung tone was low, true, high; null when S was not asked for.</param>
/// <param name="Pair">The pair stood still, beat, was grainy; null when only one tone was asked for.</param>
/// <param name="Line">It held, wandered, drifted.</param>
/// <param name="Sure">I am guessing, fairly sure, certain.</param>
public sealed record Saying(SaidPitch? Played, SaidPitch? Sung, SaidPair? Pair, SaidLine Line, Sureness Sure);
