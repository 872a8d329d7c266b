using BrassVox.Theory;

namespace BrassVox.Practice.Log;

/// <summary>A stretch of played notes: from B-flat up to E, or from F up to A. Our own division, between the open notes of B-flat instruments.</summary>
/// <param name="LowestMidi">MIDI number of its lowest note.</param>
public readonly record struct PlayedRegister(int LowestMidi)
{
    private const int F = 5;
    private const int BFlat = 10;

    /// <summary>The register of a note.</summary>
    /// <param name="played">The note, concert pitch.</param>
    public static PlayedRegister Of(Pitch played)
    {
        int above = played.PitchClass switch
        {
            >= F and < BFlat => played.PitchClass - F,
            >= BFlat => played.PitchClass - BFlat,
            _ => played.PitchClass + 2,
        };
        return new PlayedRegister(played.MidiNumber - above);
    }

    /// <summary>Its lowest note.</summary>
    public Pitch Lowest => Pitch.FromMidi(LowestMidi);

    /// <summary>Its highest note.</summary>
    public Pitch Highest => Pitch.FromMidi(LowestMidi + (Lowest.PitchClass == BFlat ? 6 : 4));

    /// <summary>In a language of note names: Bb1-E2.</summary>
    /// <param name="naming">The language.</param>
    public string Name(NoteNaming naming) => $"{NoteNames.Of(Lowest, naming)}-{NoteNames.Of(Highest, naming)}";

    /// <summary>Such as Bb1-E2.</summary>
    public override string ToString() => Name(NoteNaming.English);
}
