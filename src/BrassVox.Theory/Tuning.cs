using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace BrassVox.Theory;

/// <summary>
/// A tuning: where each note lies, in cents above a root that itself keeps its equal-tempered place for the chosen A4.
/// </summary>
/// <remarks>
/// Just degrees are the twelve of Ellis's duodene, 1 16/15 9/8 6/5 5/4 4/3 45/32 3/2 8/5 5/3 9/5 15/8 (choice of degrees from memory;
/// ratios exact). Pythagorean and quarter-comma meantone count pure (3/2) and tempered (5^(1/4)) fifths along the spelling,
/// so G# and Ab differ as they should. Exact mathematics.
/// </remarks>
public sealed class Tuning
{
    private static readonly double[] JustRatios =
        [1, 16.0 / 15, 9.0 / 8, 6.0 / 5, 5.0 / 4, 4.0 / 3, 45.0 / 32, 3.0 / 2, 8.0 / 5, 5.0 / 3, 9.0 / 5, 15.0 / 8];

    private readonly Func<Pitch, double> _centsAboveRoot;

    private Tuning(string name, Pitch root, Func<Pitch, double> centsAboveRoot)
    {
        Name = name;
        Root = root;
        _centsAboveRoot = centsAboveRoot;
    }

    /// <summary>Twelve-tone equal temperament.</summary>
    public static Tuning Equal { get; } =
        new("equal", new Pitch(NoteLetter.A, 0, 4), pitch => 100.0 * (pitch.MidiNumber - 69));

    /// <summary>Name shown with every figure that depends on it: equal, just, pythagorean, meantone or own.</summary>
    public string Name { get; }

    /// <summary>The note that keeps its equal-tempered place. Octave has no effect.</summary>
    public Pitch Root { get; }

    /// <summary>Just intonation from a named root.</summary>
    /// <param name="root">The root; its octave has no effect.</param>
    public static Tuning JustFrom(Pitch root) =>
        FromDegrees("just", root, [.. JustRatios.Select(ratio => Cents.Between(1, ratio))]);

    /// <summary>Pythagorean tuning: a chain of pure fifths through the root.</summary>
    /// <param name="root">The root; its octave has no effect.</param>
    public static Tuning PythagoreanFrom(Pitch root) => FromFifths("pythagorean", root, Cents.Between(2, 3));

    /// <summary>Quarter-comma meantone: a chain of fifths of 5^(1/4) through the root.</summary>
    /// <param name="root">The root; its octave has no effect.</param>
    public static Tuning MeantoneFrom(Pitch root) => FromFifths("meantone", root, Cents.Between(1, Math.Pow(5, 0.25)));

    /// <summary>A tuning of one's own.</summary>
    /// <param name="root">The root; its octave has no effect.</param>
    /// <param name="centsAboveRoot">Twelve values for the twelve semitones above the root, the first one usually 0; each finite, -200 to 1400.</param>
    /// <exception cref="ArgumentException">There are not twelve values, or one is out of range.</exception>
    public static Tuning OwnFrom(Pitch root, IReadOnlyList<double> centsAboveRoot)
    {
        if (centsAboveRoot.Count != 12 || centsAboveRoot.Any(cents => !(cents is >= -200 and <= 1400)))
        {
            throw new ArgumentException("An own tuning has twelve values in cents above the root, each from -200 to 1400.", nameof(centsAboveRoot));
        }

        return FromDegrees("own", root, [.. centsAboveRoot]);
    }

    /// <summary>Reads a tuning's name, or twelve comma-separated cents.</summary>
    /// <param name="text">equal, just, pythagorean or meantone in any case, or twelve numbers with full stops.</param>
    /// <param name="root">The root for all but equal.</param>
    /// <param name="tuning">The tuning, when the result is true.</param>
    public static bool TryParse(string text, Pitch root, [NotNullWhen(true)] out Tuning? tuning)
    {
        tuning = text.Trim().ToUpperInvariant() switch
        {
            "EQUAL" => Equal,
            "JUST" => JustFrom(root),
            "PYTHAGOREAN" => PythagoreanFrom(root),
            "MEANTONE" => MeantoneFrom(root),
            _ => ParseOwn(text, root),
        };
        return tuning is not null;
    }

    /// <summary>Frequency of a note in this tuning, in Hz.</summary>
    /// <param name="pitch">The note; where the tuning is spelled, its spelling matters.</param>
    /// <param name="a4Hz">A4 of the equal-tempered frame in Hz, 400 to 480.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="a4Hz"/> is outside its range.</exception>
    public double FrequencyHz(Pitch pitch, double a4Hz) =>
        Cents.Above(EqualTemperament.FrequencyHz(Root.MidiNumber, a4Hz), _centsAboveRoot(pitch));

    private static Tuning FromDegrees(string name, Pitch root, double[] centsAboveRoot) =>
        new(name, root, pitch =>
        {
            int semitones = pitch.MidiNumber - root.MidiNumber;
            int octaves = (int)Math.Floor(semitones / 12.0);
            return (Cents.PerOctave * octaves) + centsAboveRoot[semitones - (12 * octaves)];
        });

    private static Tuning FromFifths(string name, Pitch root, double fifthCents) =>
        new(name, root, pitch =>
        {
            int fifths = pitch.FifthsFromC - root.FifthsFromC;
            int semitones = pitch.MidiNumber - root.MidiNumber;
            int octaves = (semitones - (7 * fifths)) / 12;
            return (fifths * fifthCents) + (Cents.PerOctave * octaves);
        });

    private static Tuning? ParseOwn(string text, Pitch root)
    {
        string[] fields = text.Split(',');
        double[] cents = new double[fields.Length];
        for (int i = 0; i < fields.Length; i++)
        {
            if (!double.TryParse(fields[i], NumberStyles.Float, CultureInfo.InvariantCulture, out cents[i]))
            {
                return null;
            }
        }

        return cents.Length == 12 && cents.All(c => c is >= -200 and <= 1400) ? OwnFrom(root, cents) : null;
    }
}
