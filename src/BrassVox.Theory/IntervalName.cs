namespace BrassVox.Theory;

/// <summary>The trade's name for a distance in cents.</summary>
public static class IntervalName
{
    private static readonly string[] Simple =
        ["unison", "semitone", "whole tone", "minor third", "major third", "fourth", "tritone",
         "fifth", "minor sixth", "major sixth", "minor seventh", "major seventh", "octave",
         "minor ninth", "major ninth", "minor tenth", "major tenth", "eleventh", "augmented eleventh", "twelfth"];

    private static readonly string[] Octaves = ["octave", "two octaves", "three octaves", "four octaves", "five octaves", "six octaves", "seven octaves", "eight octaves", "nine octaves", "ten octaves"];

    /// <summary>Name of the equal-tempered interval nearest to a distance.</summary>
    /// <param name="cents">Distance in cents; the sign is dropped.</param>
    /// <returns>unison to twelfth; wider intervals as "octave and a minor sixth", "two octaves and a fifth".</returns>
    public static string Of(double cents)
    {
        int semitones = (int)Math.Round(Math.Abs(cents) / 100.0);
        if (semitones < Simple.Length)
        {
            return Simple[semitones];
        }

        int octaves = semitones / 12;
        int rest = semitones % 12;
        string whole = octaves <= Octaves.Length ? Octaves[octaves - 1] : $"{octaves} octaves";
        return rest == 0 ? whole : $"{whole} and a {Simple[rest]}";
    }
}
