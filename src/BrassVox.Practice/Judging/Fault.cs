namespace BrassVox.Practice.Judging;

/// <summary>In what way something was not as asked. Different faults have different cures.</summary>
public enum Fault
{
    /// <summary>No fault.</summary>
    None,

    /// <summary>Too high or too low throughout.</summary>
    Offset,

    /// <summary>In another octave.</summary>
    WrongOctave,

    /// <summary>Another note than asked, no octave of it.</summary>
    OtherNote,

    /// <summary>Wanders about its line.</summary>
    Spread,

    /// <summary>Rises or sinks from beginning to end.</summary>
    Drift,

    /// <summary>A held tone shifted when the other came, moved or crossed.</summary>
    Flinch,

    /// <summary>A glide in pieces.</summary>
    Broken,

    /// <summary>A glide that covers too small a part of the way asked for.</summary>
    ShortWay,

    /// <summary>A tone sounded where it was to rest.</summary>
    NotRested,

    /// <summary>The beats did not slow down far enough, long enough or soon enough.</summary>
    NotLanded,

    /// <summary>Beats at another rate than chosen.</summary>
    BeatRate,

    /// <summary>A pitch was reached too late.</summary>
    Late,

    /// <summary>The two tones did not sound together long enough.</summary>
    NotTogether,

    /// <summary>The tone came back somewhere else.</summary>
    NotReturned,

    /// <summary>The distance between the tones was another.</summary>
    Interval,

    /// <summary>The two tones were not in the balance asked for.</summary>
    Balance,

    /// <summary>The program's own sound lies in the take, so that the pitches cannot be trusted.</summary>
    Bleed,

    /// <summary>The tone was not found.</summary>
    NoTone,

    /// <summary>The tone was there for too small a part of what was asked.</summary>
    TooShort,
}
