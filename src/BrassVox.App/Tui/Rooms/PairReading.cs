using BrassVox.App.Tui.Input;
using BrassVox.App.Tui.Sound;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>Reads a typed pair.</summary>
internal static class PairReading
{
    /// <summary>Reads two note names, played then sung; a single one keeps P and changes S.</summary>
    /// <param name="text">As typed: "Bb1 F2", "Bb1+F2", "F3".</param>
    /// <param name="old">The pair whose tuning and coupling are kept.</param>
    /// <param name="naming">The language of the names.</param>
    public static (PairSetting? Pair, TextFault? Fault) Read(string text, PairSetting old, NoteNaming naming)
    {
        var words = new List<(string Word, int At)>();
        int start = -1;
        for (int i = 0; i <= text.Length; i++)
        {
            bool inWord = i < text.Length && text[i] is not (' ' or '+' or ',');
            if (inWord && start < 0)
            {
                start = i;
            }
            else if (!inWord && start >= 0)
            {
                words.Add((text[start..i], start));
                start = -1;
            }
        }

        if (words.Count is < 1 or > 2)
        {
            return (null, new TextFault("Two notes, played then sung, as in Bb1 F2.", text.Length));
        }

        var notes = new List<Pitch>();
        foreach ((string word, int at) in words)
        {
            if (!NoteNames.TryParse(word, naming, out Pitch note))
            {
                return (null, NoNote(word, at, naming));
            }

            notes.Add(note);
        }

        return (notes.Count == 2
            ? old with { Played = notes[0], Sung = notes[1], PlayedCents = 0, SungCents = 0 }
            : old with { Sung = notes[0], SungCents = 0 }, null);
    }

    /// <summary>What to say of a word that is no note.</summary>
    /// <param name="word">The word.</param>
    /// <param name="at">Its column in the text.</param>
    /// <param name="naming">The language of the names.</param>
    public static TextFault NoNote(string word, int at, NoteNaming naming)
    {
        string example = NoteNames.Of(Pitch.Parse("Bb1"), naming);
        return new TextFault(word.Length == 0 ? $"A note, as in {example}." : $"\"{word}\" is no note; write it as in {example}.", at);
    }
}
