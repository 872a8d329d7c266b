using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Practice.Passages;

/// <summary>Usual sounding range of an instrument.</summary>
/// <remarks>Values from memory, common practice: every player's own range differs.</remarks>
internal static class PlayedRange
{
    public static (Pitch Lowest, Pitch Highest) Of(Instrument instrument) => instrument switch
    {
        Instrument.Tuba => (Pitch.Parse("D1"), Pitch.Parse("F4")),
        Instrument.Horn => (Pitch.Parse("B1"), Pitch.Parse("F5")),
        Instrument.Trumpet => (Pitch.Parse("E3"), Pitch.Parse("C6")),
        Instrument.Euphonium => (Pitch.Parse("Bb1"), Pitch.Parse("Bb4")),
        _ => (Pitch.Parse("E2"), Pitch.Parse("C5")),
    };

    /// <summary>Where a voice usually changes register; a player's own place differs.</summary>
    public static Pitch RegisterChange(VoiceKind voice) => voice == VoiceKind.Low ? Pitch.Parse("C4") : Pitch.Parse("E4");
}
