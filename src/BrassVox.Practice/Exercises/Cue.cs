namespace BrassVox.Practice.Exercises;

/// <summary>What is heard before a take begins.</summary>
public enum Cue
{
    /// <summary>P, then S, then both, each for a second, then a second of silence.</summary>
    Tones,

    /// <summary>The whole take, synthesised, then a second of silence.</summary>
    Model,

    /// <summary>The first sung note for a second, then a second of silence.</summary>
    SungTone,

    /// <summary>Only the count of three silent seconds.</summary>
    Count,
}
