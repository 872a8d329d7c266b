namespace BrassVox.Theory;

/// <summary>The language in which notes are named.</summary>
public enum NoteNaming
{
    /// <summary>C D E F G A B with b and #: Bb1, F#2.</summary>
    English,

    /// <summary>C D E F G A H with -is and -es; B is the flat one: B1, Fis2, Es3, H2.</summary>
    German,

    /// <summary>Do Re Mi Fa Sol La Si with b and #: Sib1, Fa#2.</summary>
    Solfege,

    /// <summary>English in words, for reading aloud: B-flat 1, F-sharp 2.</summary>
    Spoken,
}
