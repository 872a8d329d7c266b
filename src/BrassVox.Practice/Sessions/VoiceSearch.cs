namespace BrassVox.Practice.Sessions;

/// <summary>Where the sung tone of a take is looked for.</summary>
public enum VoiceSearch
{
    /// <summary>Near the notes that were asked.</summary>
    AsAsked,

    /// <summary>In the octaves beside them too.</summary>
    OctavesBeside,

    /// <summary>Anywhere beside the played tone.</summary>
    Open,
}
