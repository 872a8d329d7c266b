namespace BrassVox.Theory;

/// <summary>The seven note letters; each value is the natural note's semitones above C.</summary>
public enum NoteLetter
{
    /// <summary>C natural, 0 semitones.</summary>
    C = 0,

    /// <summary>D natural, 2 semitones.</summary>
    D = 2,

    /// <summary>E natural, 4 semitones.</summary>
    E = 4,

    /// <summary>F natural, 5 semitones.</summary>
    F = 5,

    /// <summary>G natural, 7 semitones.</summary>
    G = 7,

    /// <summary>A natural, 9 semitones.</summary>
    A = 9,

    /// <summary>B natural, 11 semitones (English naming).</summary>
    B = 11,
}
