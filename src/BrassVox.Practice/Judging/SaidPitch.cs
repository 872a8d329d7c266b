namespace BrassVox.Practice.Judging;

/// <summary>What the player says of a tone's place.</summary>
public enum SaidPitch
{
    /// <summary>Too low.</summary>
    Low,

    /// <summary>True.</summary>
    True,

    /// <summary>Too high.</summary>
    High,
}
