namespace BrassVox.Synthesis;

/// <summary>What a <see cref="PairEvent"/> asks of a pair.</summary>
public enum PairEventKind
{
    /// <summary>Begin to sound, ramped over 60 ms.</summary>
    Start,

    /// <summary>End, ramped over 60 ms.</summary>
    Stop,

    /// <summary>Silence at once, ramped over 10 ms.</summary>
    Tacet,

    /// <summary>One tone follows a pitch path from here on.</summary>
    Pitch,

    /// <summary>One part fades to a gain.</summary>
    Gain,

    /// <summary>The coupling depth moves to a value.</summary>
    Coupling,
}
