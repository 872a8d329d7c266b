using BrassVox.Theory;

namespace BrassVox.Practice.Profiles;

/// <summary>What the program has to know of a player before an exercise has notes.</summary>
/// <param name="Instrument">What is played.</param>
/// <param name="Voice">Which home pairs are used.</param>
/// <param name="LowestSung">Lowest note the player sings with ease.</param>
/// <param name="HighestSung">Highest note the player sings with ease.</param>
/// <param name="A4Hz">A4 in Hz, 400 to 480.</param>
/// <param name="TuningName">equal, just, pythagorean, meantone, or twelve comma-separated cents; see <see cref="Tuning.TryParse"/>.</param>
/// <param name="TuningRoot">Root of the tuning; null takes the exercise's played tone.</param>
/// <param name="Aim">The grade takes are held against.</param>
/// <param name="RegisterChange">Lowest note of the voice's upper register; null when not told.</param>
public sealed record PlayerProfile(
    Instrument Instrument,
    VoiceKind Voice,
    Pitch LowestSung,
    Pitch HighestSung,
    double A4Hz = 440.0,
    string TuningName = "just",
    Pitch? TuningRoot = null,
    Grade Aim = Grade.II,
    Pitch? RegisterChange = null)
{
    /// <summary>A profile with the usual easy range of the voice.</summary>
    /// <param name="instrument">What is played.</param>
    /// <param name="voice">The voice.</param>
    /// <remarks>Ranges F2 to D4 and F3 to C5: common practice, no source; every player sets their own.</remarks>
    public static PlayerProfile Usual(Instrument instrument, VoiceKind voice) => voice == VoiceKind.Low
        ? new PlayerProfile(instrument, voice, Pitch.Parse("F2"), Pitch.Parse("D4"))
        : new PlayerProfile(instrument, voice, Pitch.Parse("F3"), Pitch.Parse("C5"));

    /// <summary>The same player on another instrument, or with another voice, which begins from its usual easy range; all else stays.</summary>
    /// <param name="instrument">What is played.</param>
    /// <param name="voice">The voice.</param>
    public PlayerProfile With(Instrument instrument, VoiceKind voice)
    {
        PlayerProfile usual = Usual(instrument, voice);
        return voice == Voice ? this with { Instrument = instrument } : this with
        {
            Instrument = instrument,
            Voice = voice,
            LowestSung = usual.LowestSung,
            HighestSung = usual.HighestSung,
            RegisterChange = null,
        };
    }

    /// <summary>The tuning, rooted on the profile's root or on the given note.</summary>
    /// <param name="playedRoot">The exercise's played tone, used when the profile names no root.</param>
    /// <exception cref="FormatException">The tuning's name is not known.</exception>
    public Tuning TuningFor(Pitch playedRoot) =>
        Tuning.TryParse(TuningName, TuningRoot ?? playedRoot, out Tuning? tuning)
            ? tuning
            : throw new FormatException($"\"{TuningName}\" is no tuning; write equal, just, pythagorean, meantone, or twelve comma-separated cents.");

    /// <summary>True when a sung note lies in the player's easy range.</summary>
    /// <param name="sung">The note.</param>
    public bool CanSing(Pitch sung) => sung.MidiNumber >= LowestSung.MidiNumber && sung.MidiNumber <= HighestSung.MidiNumber;
}
