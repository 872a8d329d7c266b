namespace BrassVox.Practice.Log;

/// <summary>Intervals by the name of their number, as the error map groups them. Direction does not count.</summary>
public enum IntervalFamily
{
    /// <summary>Unison.</summary>
    Unison,

    /// <summary>Semitone and whole tone.</summary>
    Second,

    /// <summary>Minor and major third.</summary>
    Third,

    /// <summary>Fourth.</summary>
    Fourth,

    /// <summary>Tritone.</summary>
    Tritone,

    /// <summary>Fifth.</summary>
    Fifth,

    /// <summary>Minor and major sixth.</summary>
    Sixth,

    /// <summary>Minor and major seventh.</summary>
    Seventh,

    /// <summary>Octave.</summary>
    Octave,

    /// <summary>Minor and major ninth.</summary>
    Ninth,

    /// <summary>Minor and major tenth.</summary>
    Tenth,

    /// <summary>Eleventh, plain and augmented.</summary>
    Eleventh,

    /// <summary>Twelfth.</summary>
    Twelfth,

    /// <summary>Anything wider.</summary>
    Wider,
}
