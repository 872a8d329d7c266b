using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Publishing.Notation;

/// <summary>How a player's part is written.</summary>
/// <param name="Key">The part's key for people, as in "in F"; empty in concert pitch.</param>
/// <param name="Diatonic">Letters added to the written note, octaves apart.</param>
/// <param name="Chromatic">Semitones added to the written note, octaves apart.</param>
/// <param name="OctaveChange">Octaves added to the written note.</param>
/// <param name="IsTreble">True for the treble clef, false for the bass clef.</param>
/// <remarks>Source of the form: MusicXML 4.0, element transpose. Which instrument reads which part: common practice, no source.</remarks>
public sealed record WrittenPart(string Key, int Diatonic, int Chromatic, int OctaveChange, bool IsTreble)
{
    /// <summary>Concert pitch in the bass clef.</summary>
    public static WrittenPart Concert { get; } = new("", 0, 0, 0, false);

    /// <summary>What is added to the written note to get the sounding one.</summary>
    public Interval ToSounding => new Interval(Diatonic, Chromatic).WithOctaves(OctaveChange);

    /// <summary>True when the part is not in concert pitch.</summary>
    public bool IsTransposed => Key.Length > 0;

    /// <summary>The part a player reads: transposed, horn in F and the others in B-flat, or in concert pitch.</summary>
    /// <param name="instrument">The instrument.</param>
    /// <param name="readsTransposed">True when the player reads the instrument's transposed treble clef.</param>
    public static WrittenPart Of(Instrument instrument, bool readsTransposed) => (instrument, readsTransposed) switch
    {
        (Instrument.Horn, true) => new WrittenPart("in F", -4, -7, 0, true),
        (Instrument.Trumpet, true) => new WrittenPart("in Bb", -1, -2, 0, true),
        (Instrument.Tuba, true) => new WrittenPart("in Bb", -1, -2, -2, true),
        (_, true) => new WrittenPart("in Bb", -1, -2, -1, true),
        _ => InConcertPitch(instrument),
    };

    /// <summary>Concert pitch in the clef that suits the instrument.</summary>
    /// <param name="instrument">The instrument.</param>
    public static WrittenPart InConcertPitch(Instrument instrument) => Concert with { IsTreble = instrument == Instrument.Trumpet };

    /// <summary>The written note of a sounding one.</summary>
    /// <param name="sounding">The sounding note.</param>
    public Pitch Written(Pitch sounding) => new Interval(-ToSounding.Letters, -ToSounding.Semitones).From(sounding);
}
