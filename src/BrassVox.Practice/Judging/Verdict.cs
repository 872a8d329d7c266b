namespace BrassVox.Practice.Judging;

/// <summary>What a criterion came to.</summary>
public enum Verdict
{
    /// <summary>As asked.</summary>
    Met,

    /// <summary>Not as asked; the finding says how.</summary>
    Missed,

    /// <summary>Could not be told from this take; not held against the player, but a take that hangs on it is not as asked either.</summary>
    NotTold,
}
