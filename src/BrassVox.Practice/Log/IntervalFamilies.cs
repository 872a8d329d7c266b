using BrassVox.Theory;

namespace BrassVox.Practice.Log;

/// <summary>From notes to interval families.</summary>
public static class IntervalFamilies
{
    private static readonly IntervalFamily[] BySemitones =
    [
        IntervalFamily.Unison, IntervalFamily.Second, IntervalFamily.Second, IntervalFamily.Third, IntervalFamily.Third, IntervalFamily.Fourth,
        IntervalFamily.Tritone, IntervalFamily.Fifth, IntervalFamily.Sixth, IntervalFamily.Sixth, IntervalFamily.Seventh, IntervalFamily.Seventh,
        IntervalFamily.Octave, IntervalFamily.Ninth, IntervalFamily.Ninth, IntervalFamily.Tenth, IntervalFamily.Tenth, IntervalFamily.Eleventh,
        IntervalFamily.Eleventh, IntervalFamily.Twelfth,
    ];

    /// <summary>The family of a pair.</summary>
    /// <param name="played">P.</param>
    /// <param name="sung">S, above or below.</param>
    public static IntervalFamily Of(Pitch played, Pitch sung)
    {
        int semitones = Math.Abs(sung.MidiNumber - played.MidiNumber);
        return semitones < BySemitones.Length ? BySemitones[semitones] : IntervalFamily.Wider;
    }

    /// <summary>Its name: fifth.</summary>
    /// <param name="family">The family.</param>
    public static string Name(IntervalFamily family) => family.ToString().ToLowerInvariant();
}
