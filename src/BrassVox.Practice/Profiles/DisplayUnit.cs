namespace BrassVox.Practice.Profiles;

/// <summary>The unit in which a distance is shown first. A cent is a ratio, a beat is what is heard.</summary>
public enum DisplayUnit
{
    /// <summary>Cents.</summary>
    Cents,

    /// <summary>Beats per second.</summary>
    Beats,
}
