namespace BrassVox.Practice.Exercises;

/// <summary>What the program sounds of the player's own tones during a take.</summary>
public enum DroneUse
{
    /// <summary>As the exercise says.</summary>
    Planned,

    /// <summary>All the time.</summary>
    Throughout,

    /// <summary>Three seconds with, three without, in turn, so that both can be compared.</summary>
    DropOuts,

    /// <summary>Not at all.</summary>
    Silent,
}
