namespace BrassVox.Practice.Log;

/// <summary>Why a take is in no cell of the error map.</summary>
public enum WhyLeftOut
{
    /// <summary>It is of a passage: many pairs each.</summary>
    OfPassage,

    /// <summary>The program's own sound bled into it.</summary>
    DroneBleeds,

    /// <summary>Nothing reached the microphone.</summary>
    NothingCameIn,

    /// <summary>Not judged: the two tones lay too near each other to be told apart.</summary>
    Fog,

    /// <summary>Not judged: its beats are the measure, and none were told.</summary>
    NoBeats,

    /// <summary>Not judged: the program's own sound lay over what was asked.</summary>
    UnderDrone,

    /// <summary>Not judged: a tone, or which of the two it was, was not told for long enough.</summary>
    NotTold,

    /// <summary>Judged, but without a figure: a tone was missing, on another note or in another octave, or nothing was asked that cents tell.</summary>
    NoFigure,
}
