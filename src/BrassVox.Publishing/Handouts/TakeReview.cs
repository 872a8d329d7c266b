using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;

namespace BrassVox.Publishing.Handouts;

/// <summary>A kept take for a handout. What a player noted of their body is never part of it.</summary>
/// <param name="Take">The take, with its frames where they were kept.</param>
/// <param name="Asked">What was asked; null where that is not known any more.</param>
/// <param name="Cautions">The cautions of what was practised.</param>
/// <param name="Zone">Where the player lives, for the time of day.</param>
/// <param name="Sound">The take's own sound as Ogg Opus, from its beginning; null leaves it out.</param>
/// <param name="Cell">What the player's takes of this interval and register came to, week by week; null where that is not told.</param>
/// <param name="Plan">What the player's plan says of it; null for nothing.</param>
public sealed record TakeReview(
    TakeRecord Take,
    ResolvedExercise? Asked,
    IReadOnlyList<Caution> Cautions,
    TimeZoneInfo Zone,
    byte[]? Sound = null,
    WeekTrend? Cell = null,
    string? Plan = null)
{
    /// <summary>Heading for people: what was practised and when: several of one day are told apart.</summary>
    public string Title => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Take.ExerciseName}, a take of {At:d MMMM yyyy, HH:mm}");

    /// <summary>When it was made, in the player's own time.</summary>
    internal DateTimeOffset At => TimeZoneInfo.ConvertTime(Take.MadeAt, Zone);

    /// <summary>True when its pitches are the player's.</summary>
    internal bool IsTrusted => Take.Drone is not { IsTrusted: false };
}
