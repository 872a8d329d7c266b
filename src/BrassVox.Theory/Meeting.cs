namespace BrassVox.Theory;

/// <summary>How two neighbouring partials are heard together, by their distance in Hz.</summary>
public enum Meeting
{
    /// <summary>Under 0.1 beats a second.</summary>
    Still,

    /// <summary>Single beats can be followed.</summary>
    Beating,

    /// <summary>Too fast to count, within one equivalent rectangular bandwidth: heard as grain.</summary>
    Grain,

    /// <summary>Further apart than that.</summary>
    Apart,
}
