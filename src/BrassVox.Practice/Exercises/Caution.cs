namespace BrassVox.Practice.Exercises;

/// <summary>What can hurt in an exercise. The words are in <see cref="Cautions"/>.</summary>
public enum Caution
{
    /// <summary>Loud sound in the ears.</summary>
    Hearing,

    /// <summary>Low tones that a small loudspeaker cannot carry and that tempt one to turn up.</summary>
    LowTones,

    /// <summary>Singing while playing tires the voice.</summary>
    Voice,

    /// <summary>Lips tire as well.</summary>
    Lips,

    /// <summary>Long, loud or high notes raise pressure in eye and belly.</summary>
    Pressure,

    /// <summary>Long breaths make dizzy.</summary>
    Dizziness,
}
