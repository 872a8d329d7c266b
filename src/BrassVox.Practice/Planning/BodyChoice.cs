namespace BrassVox.Practice.Planning;

/// <summary>What the player makes of the advice that body notes give.</summary>
public enum BodyChoice
{
    /// <summary>Follow it.</summary>
    AsAdvised,

    /// <summary>Rest today.</summary>
    Rest,

    /// <summary>Go on as planned; the player decides.</summary>
    AsPlanned,
}
