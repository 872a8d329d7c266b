namespace BrassVox.Practice.Judging;

/// <summary>What the player says of the pair.</summary>
public enum SaidPair
{
    /// <summary>It stood still.</summary>
    Still,

    /// <summary>It beat.</summary>
    Beat,

    /// <summary>It was grainy.</summary>
    Grainy,
}
