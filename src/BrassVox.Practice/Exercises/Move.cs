namespace BrassVox.Practice.Exercises;

/// <summary>What a tone does in one stretch of a path.</summary>
public enum Move
{
    /// <summary>Stands on a pitch; reached at once.</summary>
    Hold,

    /// <summary>Moves straight in cents to a pitch.</summary>
    Glide,

    /// <summary>Is silent.</summary>
    Rest,
}
