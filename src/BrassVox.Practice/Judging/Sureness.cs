namespace BrassVox.Practice.Judging;

/// <summary>How sure the player is.</summary>
public enum Sureness
{
    /// <summary>Guessing.</summary>
    Guessing,

    /// <summary>Fairly sure.</summary>
    FairlySure,

    /// <summary>Certain.</summary>
    Certain,
}
