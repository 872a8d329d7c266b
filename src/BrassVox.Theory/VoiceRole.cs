namespace BrassVox.Theory;

/// <summary>Which of the player's two pitch sources a tone belongs to.</summary>
public enum VoiceRole
{
    /// <summary>The tone of the lips on the instrument, written P.</summary>
    Played,

    /// <summary>The tone of the voice, written S.</summary>
    Sung,
}
