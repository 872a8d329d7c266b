using System.Globalization;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>A spelled interval: how many letters and how many semitones, so that a just or meantone tuning knows which note is meant.</summary>
/// <param name="Letters">Letters up (0 for a unison, 4 for a fifth); negative when downwards.</param>
/// <param name="Semitones">Semitones up; negative when downwards.</param>
public readonly record struct Interval(int Letters, int Semitones)
{
    private static readonly int[] NaturalSemitones = [0, 2, 4, 5, 7, 9, 11];

    private static readonly NoteLetter[] LetterOrder =
        [NoteLetter.C, NoteLetter.D, NoteLetter.E, NoteLetter.F, NoteLetter.G, NoteLetter.A, NoteLetter.B];

    /// <summary>An octave up.</summary>
    public static Interval Octave { get; } = new(7, 12);

    /// <summary>Reads P1, m2, M3, P5, A4, d5, P8, M10, P12, P15 and the like, with a minus sign when downwards.</summary>
    /// <param name="text">Sign, quality P M m A d, and number 1 to 29.</param>
    /// <param name="interval">The interval, when the result is true.</param>
    public static bool TryParse(string? text, out Interval interval)
    {
        interval = default;
        if (string.IsNullOrEmpty(text))
        {
            return false;
        }

        int sign = text[0] == '-' ? -1 : 1;
        ReadOnlySpan<char> rest = text.AsSpan(sign < 0 ? 1 : 0);
        if (rest.Length < 2
            || !int.TryParse(rest[1..], NumberStyles.None, CultureInfo.InvariantCulture, out int number)
            || number is < 1 or > 29)
        {
            return false;
        }

        int letters = number - 1;
        bool perfect = (letters % 7) is 0 or 3 or 4;
        int? alteration = (rest[0], perfect) switch
        {
            ('P', true) or ('M', false) => 0,
            ('m', false) or ('d', true) => -1,
            ('d', false) => -2,
            ('A', _) => 1,
            _ => null,
        };
        if (alteration is not { } altered)
        {
            return false;
        }

        int semitones = (12 * (letters / 7)) + NaturalSemitones[letters % 7] + altered;
        interval = new Interval(sign * letters, sign * semitones);
        return true;
    }

    /// <summary>Reads an interval; see <see cref="TryParse"/>.</summary>
    /// <param name="text">The text.</param>
    /// <exception cref="FormatException">The text is no interval.</exception>
    public static Interval Parse(string text) => TryParse(text, out Interval interval)
        ? interval
        : throw new FormatException($"\"{text}\" is not an interval; write P1, m3, M3, P4, P5, M6, P8, M10, P12, with a minus sign when downwards.");

    /// <summary>The interval from one note up to another, as they are spelled.</summary>
    /// <param name="from">The note to start from.</param>
    /// <param name="to">The note to end on.</param>
    public static Interval Between(Pitch from, Pitch to)
    {
        static int Place(Pitch pitch) => Array.IndexOf(LetterOrder, pitch.Letter) + (7 * pitch.Octave);
        return new Interval(Place(to) - Place(from), to.MidiNumber - from.MidiNumber);
    }

    /// <summary>The note this interval above (or below) another, spelled as the interval asks where two accidentals suffice.</summary>
    /// <param name="from">The note to start from.</param>
    public Pitch From(Pitch from)
    {
        int place = Array.IndexOf(LetterOrder, from.Letter) + Letters;
        int octave = from.Octave + (int)Math.Floor(place / 7.0);
        NoteLetter letter = LetterOrder[((place % 7) + 7) % 7];
        int alteration = from.MidiNumber + Semitones - new Pitch(letter, 0, octave).MidiNumber;
        return Math.Abs(alteration) <= 2
            ? new Pitch(letter, alteration, octave)
            : Pitch.FromMidi(from.MidiNumber + Semitones);
    }

    /// <summary>The interval with octaves added.</summary>
    /// <param name="octaves">Octaves, any sign.</param>
    public Interval WithOctaves(int octaves) => new(Letters + (7 * octaves), Semitones + (12 * octaves));

    /// <summary>The form that <see cref="TryParse"/> reads.</summary>
    public override string ToString()
    {
        int sign = Letters < 0 || (Letters == 0 && Semitones < 0) ? -1 : 1;
        int letters = sign * Letters;
        int natural = (12 * (letters / 7)) + NaturalSemitones[letters % 7];
        int altered = (sign * Semitones) - natural;
        bool perfect = (letters % 7) is 0 or 3 or 4;
        string quality = (altered, perfect) switch
        {
            (0, true) => "P",
            (0, false) => "M",
            (-1, false) => "m",
            ( > 0, _) => "A",
            _ => "d",
        };
        return string.Create(CultureInfo.InvariantCulture, $"{(sign < 0 ? "-" : "")}{quality}{letters + 1}");
    }
}
