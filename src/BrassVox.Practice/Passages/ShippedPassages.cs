using BrassVox.Practice.Profiles;

namespace BrassVox.Practice.Passages;

/// <summary>The passages that lie beside the program, in a version for each voice.</summary>
public static class ShippedPassages
{
    /// <summary>The passage of a first visit.</summary>
    public const string First = "two-breaths-one-pipe";

    /// <summary>File of a shipped passage for a voice.</summary>
    /// <param name="name">Its name, without voice and ending.</param>
    /// <param name="voice">The voice.</param>
    public static string PathOf(string name, VoiceKind voice) =>
        Path.Combine(PassageFile.ShippedFolder, $"{name}-{voice.ToString().ToLowerInvariant()}.txt");

    /// <summary>A shipped passage as an instrument plays it: P an octave higher where the instrument does not reach it.</summary>
    /// <param name="name">Its name, without voice and ending.</param>
    /// <param name="profile">The player.</param>
    public static PassageLoad Load(string name, PlayerProfile profile)
    {
        PassageLoad load = PassageFile.Read(PathOf(name, profile.Voice));
        return load.Passage is { } passage ? load with { Passage = Fitted(passage, profile.Instrument) } : load;
    }

    private static Passage Fitted(Passage passage, Instrument instrument)
    {
        int lowest = PlayedRange.Of(instrument).Lowest.MidiNumber;
        return passage.Played.All(note => note.Note.MidiNumber >= lowest)
            ? passage
            : passage with
            {
                Played = [.. passage.Played.Select(note => note with { Note = note.Note.Transposed(1) })],
                Remarks = [.. passage.Remarks, "P is played an octave higher than written, where the instrument lies."],
            };
    }
}
