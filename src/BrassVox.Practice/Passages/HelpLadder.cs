namespace BrassVox.Practice.Passages;

/// <summary>Withdraws help step by step. Immutable.</summary>
/// <param name="Step">The help now given.</param>
/// <param name="CleanInRow">Clean turns in a row with it.</param>
public sealed record HelpLadder(HelpStep Step = HelpStep.BothTones, int CleanInRow = 0)
{
    /// <summary>Clean turns that take one help away.</summary>
    public const int CleanWanted = 2;

    /// <summary>The ladder after a turn.</summary>
    /// <param name="isClean">True when the turn was as asked; null when nothing could be told, which changes nothing.</param>
    public HelpLadder After(bool? isClean) => (isClean, CleanInRow + 1 >= CleanWanted) switch
    {
        (null, _) => this,
        (false, _) => this with { CleanInRow = 0 },
        (true, true) when Step != HelpStep.Nothing => new HelpLadder(Step + 1),
        _ => this with { CleanInRow = CleanInRow + 1 },
    };
}
