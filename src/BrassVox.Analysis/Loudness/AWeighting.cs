namespace BrassVox.Analysis.Loudness;

/// <summary>A-weighting: how much fainter than a sound level meter's flat reading a pure tone counts, by frequency.</summary>
public static class AWeighting
{
    private const double F1 = 20.598997;
    private const double F2 = 107.65265;
    private const double F3 = 737.86223;
    private const double F4 = 12194.217;

    /// <summary>Gain in dB, 0 at 1 kHz.</summary>
    /// <param name="frequencyHz">Frequency in Hz, &gt; 0.</param>
    /// <remarks>Source: IEC 61672-1, annex E; the four corner frequencies with more digits than printed there.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not positive.</exception>
    public static double Db(double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(frequencyHz);
        return Unscaled(frequencyHz) - Unscaled(1_000.0);
    }

    private static double Unscaled(double hz)
    {
        double square = hz * hz;
        double low = (square + (F1 * F1)) * Math.Sqrt((square + (F2 * F2)) * (square + (F3 * F3)));
        return 20.0 * Math.Log10(F4 * F4 * square * square / (low * (square + (F4 * F4))));
    }
}
