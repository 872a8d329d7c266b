namespace BrassVox.Analysis;

/// <summary>Whether one window can tell the two tones apart.</summary>
public enum Separability
{
    /// <summary>Nothing sounds that could be measured.</summary>
    Silent,

    /// <summary>Only one tone was found.</summary>
    OneTone,

    /// <summary>Both tones have partials of their own: both pitches stand.</summary>
    Separable,

    /// <summary>Each line of one lies too near a line of the other: no sung pitch is given, the beat rate is.</summary>
    NotSeparable,
}
