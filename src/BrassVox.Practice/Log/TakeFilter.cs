namespace BrassVox.Practice.Log;

/// <summary>Which takes are wanted. Null asks for no limit.</summary>
/// <param name="Player">Name of the player's profile.</param>
/// <param name="ExerciseId">The exercise.</param>
/// <param name="From">Earliest time, inclusive.</param>
/// <param name="Before">Latest time, exclusive.</param>
public sealed record TakeFilter(string? Player = null, string? ExerciseId = null, DateTimeOffset? From = null, DateTimeOffset? Before = null)
{
    /// <summary>Every take.</summary>
    public static TakeFilter All { get; } = new();
}
