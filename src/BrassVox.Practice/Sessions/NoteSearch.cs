namespace BrassVox.Practice.Sessions;

/// <summary>Where the tones of a take are looked for.</summary>
public enum NoteSearch
{
    /// <summary>Near the notes that were asked.</summary>
    AsAsked,

    /// <summary>The sung one in the octaves beside its own too.</summary>
    OctavesBesideVoice,

    /// <summary>The sung one anywhere beside the played one.</summary>
    AnyVoice,

    /// <summary>The played one anywhere beside the sung one.</summary>
    AnyLips,

    /// <summary>Both anywhere.</summary>
    AnyPair,
}
