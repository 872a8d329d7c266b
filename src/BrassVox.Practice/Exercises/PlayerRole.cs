namespace BrassVox.Practice.Exercises;

/// <summary>Which of the two tones the player makes; the program sounds the other.</summary>
public enum PlayerRole
{
    /// <summary>Plays and sings.</summary>
    Both,

    /// <summary>Plays; S is synthesised.</summary>
    Plays,

    /// <summary>Sings; P is synthesised.</summary>
    Sings,
}
