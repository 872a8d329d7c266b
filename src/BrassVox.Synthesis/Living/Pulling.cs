namespace BrassVox.Synthesis.Living;

/// <summary>How an oscillator behaves beside a weak steady tone near its own pitch: caught within a range, and beating slower than the offset just outside it.</summary>
/// <remarks>Source: R. Adler, A study of locking phenomena in oscillators, Proc. IRE 34 (1946). Holds while the other tone is weak.</remarks>
public static class Pulling
{
    /// <summary>Mean rate of beats in Hz; 0 within the range.</summary>
    /// <param name="offsetHz">Distance of the two free pitches in Hz, any sign.</param>
    /// <param name="lockHz">Half the width of the range in which one catches the other, in Hz, 0 or more.</param>
    public static double BeatHz(double offsetHz, double lockHz) =>
        Math.Sqrt(Math.Max((offsetHz * offsetHz) - (lockHz * lockHz), 0));

    /// <summary>Half the width of the range, in Hz.</summary>
    /// <param name="frequencyHz">Pitch of the oscillator in Hz.</param>
    /// <param name="q">Quality factor of its resonance.</param>
    /// <param name="amplitudeRatio">Amplitude of the other tone over its own, well below 1.</param>
    public static double LockHz(double frequencyHz, double q, double amplitudeRatio) => frequencyHz / (2 * q) * amplitudeRatio;
}
