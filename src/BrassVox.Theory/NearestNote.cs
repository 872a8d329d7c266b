using System.Globalization;

namespace BrassVox.Theory;

/// <summary>The equal-tempered note nearest to a frequency, and how far the frequency lies from it.</summary>
/// <param name="Note">The note, black keys as flats.</param>
/// <param name="Cents">Cents above the note, -50 to +50.</param>
public readonly record struct NearestNote(Pitch Note, double Cents)
{
    /// <summary>Lowest frequency that is named as a note, in Hz; what is slower is heard as beats or grain, not as a pitch.</summary>
    /// <remarks>Source: ISO 226:2003 lists contours of equal loudness from 20 Hz on.</remarks>
    public const double LowestPitchHz = 20;

    /// <summary>Finds the nearest equal-tempered note.</summary>
    /// <param name="frequencyHz">Frequency in Hz, finite and &gt; 0.</param>
    /// <param name="a4Hz">Frequency of A4 in Hz, see <see cref="EqualTemperament"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="frequencyHz"/> is not a positive finite number.</exception>
    public static NearestNote Of(double frequencyHz, double a4Hz)
    {
        double midi = EqualTemperament.MidiNumber(frequencyHz, a4Hz);
        int nearest = (int)Math.Round(midi);
        return new NearestNote(Pitch.FromMidi(nearest), 100.0 * (midi - nearest));
    }

    /// <summary>Note and signed whole cents, as in <c>D3 -15</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Note} {Cents:+0;-0;0}");
}
