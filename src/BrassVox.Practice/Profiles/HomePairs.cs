using BrassVox.Theory;

namespace BrassVox.Practice.Profiles;

/// <summary>Home pairs, and the other played notes that let a voice meet the played tone.</summary>
/// <remarks>
/// Our own curriculum, to be tried with players; no published source. The interval is a fifth, or the fifth in the octave the voice has:
/// a twelfth, a nineteenth, or a fourth below. Which resultants it makes changes with the octave; the program says so.
/// </remarks>
public static class HomePairs
{
    /// <summary>Home pairs of an instrument and a voice, the first one preferred.</summary>
    /// <param name="instrument">The instrument.</param>
    /// <param name="voice">The voice.</param>
    public static IReadOnlyList<HomePair> Of(Instrument instrument, VoiceKind voice) => (instrument, voice) switch
    {
        (Instrument.Tuba, VoiceKind.Low) => Pairs("Bb1", "F2", "F3"),
        (Instrument.Tuba, _) => Pairs("Bb1", "F4"),
        (Instrument.Horn, VoiceKind.Low) => Pairs("F3", "C4", "C3"),
        (Instrument.Horn, _) => Pairs("F3", "C4", "C5"),
        (Instrument.Trumpet, VoiceKind.Low) => Pairs("Bb3", "F3"),
        (Instrument.Trumpet, _) => Pairs("Bb3", "F4"),
        (_, VoiceKind.Low) => Pairs("Bb2", "F3"),
        _ => Pairs("Bb2", "F4"),
    };

    /// <summary>Played notes to try, in order, when the voice has to meet the played tone: home first, then raised.</summary>
    /// <param name="instrument">The instrument.</param>
    public static IReadOnlyList<Pitch> MeetingNotes(Instrument instrument) => instrument switch
    {
        Instrument.Tuba => Notes("Bb1", "F2", "Bb2"),
        Instrument.Horn => Notes("F3", "Bb3", "C4"),
        Instrument.Trumpet => Notes("Bb3", "C4", "F4"),
        _ => Notes("Bb2", "F3", "Bb3"),
    };

    private static Pitch[] Notes(params string[] names) => [.. names.Select(Pitch.Parse)];

    private static HomePair[] Pairs(string played, params string[] sung) =>
        [.. sung.Select(name => new HomePair(Pitch.Parse(played), Pitch.Parse(name)))];
}
