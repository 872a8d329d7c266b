using System.Globalization;
using System.Text.RegularExpressions;

namespace BrassVox.Theory;

/// <summary>Names of notes in the player's own language. Octaves are scientific in all of them.</summary>
/// <remarks>Source: common practice in English, German and Romance countries; German irregular names Es, As, B, H (from memory).</remarks>
public static partial class NoteNames
{
    private const int LowestOctave = -1;
    private const int HighestOctave = 9;

    /// <summary>Name of a note with its octave.</summary>
    /// <param name="pitch">The note.</param>
    /// <param name="naming">The language.</param>
    public static string Of(Pitch pitch, NoteNaming naming) => naming == NoteNaming.Spoken
        ? string.Create(CultureInfo.InvariantCulture, $"{WithoutOctave(pitch, naming)} {pitch.Octave}")
        : string.Create(CultureInfo.InvariantCulture, $"{WithoutOctave(pitch, naming)}{pitch.Octave}");

    /// <summary>A sentence with the notes named in it in another language: prompts and findings come with English ones.</summary>
    /// <param name="sentence">The sentence.</param>
    /// <param name="naming">The language.</param>
    public static string Respelled(string sentence, NoteNaming naming) => naming == NoteNaming.English
        ? sentence
        : EnglishNote().Replace(sentence, match => Pitch.TryParse(match.Value, out Pitch pitch) ? Of(pitch, naming) : match.Value);

    [GeneratedRegex(@"(?<!\w)[A-G](?:#{1,2}|b{1,2})?[0-9](?!\w)", RegexOptions.CultureInvariant)]
    private static partial Regex EnglishNote();

    /// <summary>Name of a note without its octave.</summary>
    /// <param name="pitch">The note.</param>
    /// <param name="naming">The language.</param>
    public static string WithoutOctave(Pitch pitch, NoteNaming naming) => naming switch
    {
        NoteNaming.German => German(pitch),
        NoteNaming.Solfege => Syllable(pitch.Letter) + Signs(pitch.Alteration),
        NoteNaming.Spoken => pitch.Letter + pitch.Alteration switch
        {
            -2 => "-double-flat",
            -1 => "-flat",
            1 => "-sharp",
            2 => "-double-sharp",
            _ => string.Empty,
        },
        _ => pitch.Name,
    };

    /// <summary>Reads a name as <see cref="Of"/> writes it, in either case; English names keep to <see cref="Pitch.TryParse"/>.</summary>
    /// <param name="text">The text; null is no name. In German, B1 is B-flat 1.</param>
    /// <param name="naming">The language.</param>
    /// <param name="pitch">The note, when the result is true.</param>
    public static bool TryParse(string? text, NoteNaming naming, out Pitch pitch)
    {
        if (naming == NoteNaming.English || string.IsNullOrWhiteSpace(text))
        {
            return Pitch.TryParse(text, out pitch);
        }

        // Every name of the language is tried: 7 letters, 5 alterations, 11 octaves. Reading a note is rare; a table cannot drift from the writer.
        ReadOnlySpan<char> wanted = text.AsSpan().Trim();
        foreach (NoteLetter letter in Enum.GetValues<NoteLetter>())
        {
            for (int alteration = -2; alteration <= 2; alteration++)
            {
                for (int octave = LowestOctave; octave <= HighestOctave; octave++)
                {
                    pitch = new Pitch(letter, alteration, octave);
                    if (wanted.Equals(Of(pitch, naming), StringComparison.OrdinalIgnoreCase))
                    {
                        return true;
                    }
                }
            }
        }

        pitch = default;
        return false;
    }

    private static string German(Pitch pitch)
    {
        string letter = pitch.Letter == NoteLetter.B ? "H" : pitch.Letter.ToString();
        return (pitch.Letter, pitch.Alteration) switch
        {
            (NoteLetter.B, -1) => "B",
            (NoteLetter.B, -2) => "Heses",
            (NoteLetter.E or NoteLetter.A, -1) => letter + "s",
            (NoteLetter.E or NoteLetter.A, -2) => letter + "ses",
            (_, -1) => letter + "es",
            (_, -2) => letter + "eses",
            (_, 1) => letter + "is",
            (_, 2) => letter + "isis",
            _ => letter,
        };
    }

    private static string Syllable(NoteLetter letter) => letter switch
    {
        NoteLetter.C => "Do",
        NoteLetter.D => "Re",
        NoteLetter.E => "Mi",
        NoteLetter.F => "Fa",
        NoteLetter.G => "Sol",
        NoteLetter.A => "La",
        _ => "Si",
    };

    private static string Signs(int alteration) => alteration < 0 ? new string('b', -alteration) : new string('#', alteration);
}
