using System.Globalization;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>How the player is described.</summary>
internal static class PlayerWords
{
    /// <summary>The player in one line: tuba, low voice, A4 442.</summary>
    /// <param name="stand">The stand.</param>
    public static string Line(MusicStand stand)
    {
        PlayerProfile profile = stand.Profile;
        return string.Create(CultureInfo.InvariantCulture, $"{Name(profile.Instrument)}, {Name(profile.Voice)} voice, A4 {profile.A4Hz:0.##}");
    }

    /// <summary>An instrument's name.</summary>
    /// <param name="instrument">The instrument.</param>
    public static string Name(Instrument instrument) => instrument.ToString().ToLowerInvariant();

    /// <summary>A voice's name.</summary>
    /// <param name="voice">The voice.</param>
    public static string Name(VoiceKind voice) => voice.ToString().ToLowerInvariant();

    /// <summary>Semitones from the sounding note to the one in the instrument's transposed treble clef.</summary>
    /// <param name="instrument">The instrument.</param>
    /// <remarks>Common practice, no source: Bb treble-clef parts for tuba two octaves and a tone up, euphonium and trombone a ninth, horn in F a fifth, trumpet in Bb a tone.</remarks>
    public static int WrittenAbove(Instrument instrument) => instrument switch
    {
        Instrument.Tuba => 26,
        Instrument.Horn => 7,
        Instrument.Trumpet => 2,
        _ => 14,
    };

    /// <summary>The transposed clef in words.</summary>
    /// <param name="instrument">The instrument.</param>
    public static string TransposedClef(Instrument instrument) => instrument switch
    {
        Instrument.Tuba => "treble clef, two octaves and a tone higher",
        Instrument.Horn => "treble clef, a fifth higher",
        Instrument.Trumpet => "treble clef, a tone higher",
        _ => "treble clef, a ninth higher",
    };

    /// <summary>What a played note looks like on the player's page: "you read C3", or empty when it is written as it sounds.</summary>
    /// <param name="stand">The stand.</param>
    /// <param name="sounding">The note as it sounds.</param>
    public static string Reading(MusicStand stand, Pitch sounding) => stand.Memory.Now.ReadsTransposed
        ? $"you read {stand.Name(Pitch.FromMidi(sounding.MidiNumber + WrittenAbove(stand.Profile.Instrument)))}"
        : "";
}
