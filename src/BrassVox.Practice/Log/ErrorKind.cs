namespace BrassVox.Practice.Log;

/// <summary>The way in which takes fail; its first letter stands beside the figure.</summary>
public enum ErrorKind
{
    /// <summary>Off from beginning to end, in cents.</summary>
    Offset,

    /// <summary>Wanders about its line, in cents.</summary>
    Wander,

    /// <summary>Rises or sinks, in cents.</summary>
    Drift,

    /// <summary>Beats where the two cannot be told apart, in beats per second.</summary>
    Beats,
}
