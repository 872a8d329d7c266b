namespace BrassVox.Theory;

/// <summary>Twelve-tone equal temperament about a chosen A4.</summary>
/// <remarks>Source: f(m) = A4 * 2^((m - 69) / 12); A4 = 440 Hz is ISO 16:1975 (from memory).</remarks>
public static class EqualTemperament
{
    /// <summary>Lowest A4 accepted, in Hz.</summary>
    public const double LowestA4Hz = 400.0;

    /// <summary>Highest A4 accepted, in Hz.</summary>
    public const double HighestA4Hz = 480.0;

    /// <summary>Frequency of a (possibly fractional) MIDI note number, in Hz.</summary>
    /// <param name="midiNumber">MIDI number; 69 is A4.</param>
    /// <param name="a4Hz">A4 in Hz, <see cref="LowestA4Hz"/> to <see cref="HighestA4Hz"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="a4Hz"/> is outside its range.</exception>
    public static double FrequencyHz(double midiNumber, double a4Hz) =>
        CheckedA4(a4Hz) * double.Exp2((midiNumber - 69.0) / 12.0);

    /// <summary>Fractional MIDI note number of a frequency.</summary>
    /// <param name="frequencyHz">Frequency in Hz, finite and &gt; 0.</param>
    /// <param name="a4Hz">A4 in Hz, <see cref="LowestA4Hz"/> to <see cref="HighestA4Hz"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double MidiNumber(double frequencyHz, double a4Hz)
    {
        if (!(frequencyHz > 0) || !double.IsFinite(frequencyHz))
        {
            throw new ArgumentOutOfRangeException(nameof(frequencyHz), frequencyHz, "A frequency is a finite number of Hz above 0.");
        }

        return 69.0 + (12.0 * Math.Log2(frequencyHz / CheckedA4(a4Hz)));
    }

    private static double CheckedA4(double a4Hz) =>
        a4Hz is >= LowestA4Hz and <= HighestA4Hz
            ? a4Hz
            : throw new ArgumentOutOfRangeException(nameof(a4Hz), a4Hz, $"A4 lies from {LowestA4Hz} to {HighestA4Hz} Hz.");
}
