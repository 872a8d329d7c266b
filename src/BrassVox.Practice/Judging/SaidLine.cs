namespace BrassVox.Practice.Judging;

/// <summary>What the player says of the tones' steadiness.</summary>
public enum SaidLine
{
    /// <summary>They held.</summary>
    Held,

    /// <summary>They wandered.</summary>
    Wandered,

    /// <summary>They drifted.</summary>
    Drifted,
}
