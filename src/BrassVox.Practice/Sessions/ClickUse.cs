namespace BrassVox.Practice.Sessions;

/// <summary>When a click is heard.</summary>
public enum ClickUse
{
    /// <summary>Never.</summary>
    Off,

    /// <summary>Before the take only.</summary>
    CountIn,

    /// <summary>Before and during the take.</summary>
    Throughout,
}
