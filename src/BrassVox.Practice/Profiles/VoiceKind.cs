namespace BrassVox.Practice.Profiles;

/// <summary>Which of the two columns of home pairs a player sings from.</summary>
public enum VoiceKind
{
    /// <summary>A voice that sings easily about F2 to D4.</summary>
    Low,

    /// <summary>A voice that sings easily about F3 to C5.</summary>
    High,
}
