using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace BrassVox.Theory;

/// <summary>A spelled note in scientific pitch notation: letter, alteration, octave (C4 is middle C).</summary>
/// <param name="Letter">Note letter.</param>
/// <param name="Alteration">Semitones added to the natural: -2 (double flat) to +2 (double sharp).</param>
/// <param name="Octave">Scientific octave, -1 to 9; the octave number changes at C.</param>
/// <remarks>
/// Source: scientific pitch notation, MIDI note number = 12 (octave + 1) + semitones above C, A4 = 69.
/// Two spellings of one key (Bb1, A#1) are different pitches with the same <see cref="MidiNumber"/>.
/// </remarks>
public readonly record struct Pitch(NoteLetter Letter, int Alteration, int Octave)
{
    /// <summary>Lowest octave that is read.</summary>
    public const int LowestOctave = -1;

    /// <summary>Highest octave that is read.</summary>
    public const int HighestOctave = 9;

    private const int LargestAlteration = 2;

    private static readonly string[] FlatNames =
        ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];

    /// <summary>MIDI note number; C4 = 60, A4 = 69. May be negative or over 127 at the ends of the range.</summary>
    public int MidiNumber => (12 * (Octave + 1)) + (int)Letter + Alteration;

    /// <summary>Key within the octave, 0 (C) to 11 (B), whatever the spelling.</summary>
    public int PitchClass => ((MidiNumber % 12) + 12) % 12;

    /// <summary>Place on the line of fifths: F = -1, C = 0, G = 1, ... Bb = -2, F# = 6. Spelled tunings are counted on it.</summary>
    public int FifthsFromC => Letter switch
    {
        NoteLetter.F => -1,
        NoteLetter.C => 0,
        NoteLetter.G => 1,
        NoteLetter.D => 2,
        NoteLetter.A => 3,
        NoteLetter.E => 4,
        _ => 5,
    } + (7 * Alteration);

    /// <summary>The note of a MIDI number, black keys spelled as low brass parts do (Bb, Eb, Ab, Db, Gb).</summary>
    /// <param name="midiNumber">MIDI note number, any integer.</param>
    public static Pitch FromMidi(int midiNumber)
    {
        int octave = (int)Math.Floor(midiNumber / 12.0) - 1;
        string name = FlatNames[midiNumber - (12 * (octave + 1))];
        return new Pitch(ParseLetter(name[0])!.Value, name.Length > 1 ? -1 : 0, octave);
    }

    /// <summary>Reads a note name such as <c>Bb1</c>, <c>F#2</c>, <c>E♭3</c> or <c>c4</c>.</summary>
    /// <param name="text">Letter A to G in either case; then b, bb, #, ##, x (in either case), or the signs ♭ ♯ ♮ 𝄫 𝄪; then the octave, -1 to 9.</param>
    /// <exception cref="FormatException">The text is no such name; the message says what was expected.</exception>
    public static Pitch Parse(string text) =>
        TryParse(text, out Pitch pitch)
            ? pitch
            : throw new FormatException($"\"{text}\" is not a note name; write a letter A to G, b or #, and the octave, as in Bb1 or F#2.");

    /// <summary>Reads a note name; see <see cref="Parse"/> for the forms. Never throws.</summary>
    /// <param name="text">The text; null is no name.</param>
    /// <param name="pitch">The note, when the result is true.</param>
    public static bool TryParse([NotNullWhen(true)] string? text, out Pitch pitch)
    {
        pitch = default;
        if (string.IsNullOrWhiteSpace(text))
        {
            return false;
        }

        ReadOnlySpan<char> rest = text.AsSpan().Trim();
        if (ParseLetter(rest[0]) is not { } letter)
        {
            return false;
        }

        rest = rest[1..];
        int alteration = 0;
        while (rest.Length > 0 && TakeAccidental(ref rest, out int step))
        {
            alteration += step;
        }

        bool octaveRead = int.TryParse(rest, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int octave);
        if (!octaveRead || Math.Abs(alteration) > LargestAlteration || octave is < LowestOctave or > HighestOctave)
        {
            return false;
        }

        pitch = new Pitch(letter, alteration, octave);
        return true;
    }

    /// <summary>The same note in another octave.</summary>
    /// <param name="octaves">Octaves added, any sign.</param>
    public Pitch Transposed(int octaves) => this with { Octave = Octave + octaves };

    /// <summary>Name with ASCII accidentals, as in <c>Bb1</c> and <c>F#2</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Name}{Octave}");

    /// <summary>Name without the octave, as in <c>Bb</c>.</summary>
    public string Name => Letter.ToString() + (Alteration < 0 ? new string('b', -Alteration) : new string('#', Alteration));

    private static NoteLetter? ParseLetter(char letter) => letter switch
    {
        'C' or 'c' => NoteLetter.C,
        'D' or 'd' => NoteLetter.D,
        'E' or 'e' => NoteLetter.E,
        'F' or 'f' => NoteLetter.F,
        'G' or 'g' => NoteLetter.G,
        'A' or 'a' => NoteLetter.A,
        'B' or 'b' => NoteLetter.B,
        _ => null,
    };

    private static bool TakeAccidental(ref ReadOnlySpan<char> text, out int step)
    {
        (step, int length) = text[0] switch
        {
            'b' or 'B' or '♭' => (-1, 1),
            '#' or '♯' => (1, 1),
            'x' or 'X' => (2, 1),
            '♮' => (0, 1),
            _ when text.StartsWith("𝄫", StringComparison.Ordinal) => (-2, 2),
            _ when text.StartsWith("𝄪", StringComparison.Ordinal) => (2, 2),
            _ => (0, 0),
        };
        text = text[length..];
        return length > 0;
    }
}
