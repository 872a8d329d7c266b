namespace BrassVox.Theory;

/// <summary>Widths and scales of the ear's frequency bands.</summary>
/// <remarks>Pure functions, any thread. Frequencies below 0 Hz are refused.</remarks>
public static class CriticalBands
{
    private const double TraunmuellerLowEndBark = 2.0;
    private const double TraunmuellerHighEndBark = 20.1;

    /// <summary>Edges of the 24 critical bands in Hz: edge z lies at z Bark, from 0 to 24.</summary>
    /// <remarks>Source: Zwicker 1961, as printed in Daniel and Weber 1997.</remarks>
    public static IReadOnlyList<double> BarkEdgesHz { get; } = Array.AsReadOnly<double>(
    [
        0, 100, 200, 300, 400, 510, 630, 770, 920, 1080, 1270, 1480, 1720,
        2000, 2320, 2700, 3150, 3700, 4400, 5300, 6400, 7700, 9500, 12000, 15500,
    ]);

    /// <summary>Centres of the 24 critical bands in Hz: centre i lies at i + 0.5 Bark.</summary>
    /// <remarks>Source: Zwicker 1961, as printed in Daniel and Weber 1997.</remarks>
    public static IReadOnlyList<double> BarkCentresHz { get; } = Array.AsReadOnly<double>(
    [
        50, 150, 250, 350, 450, 570, 700, 840, 1000, 1170, 1370, 1600,
        1850, 2150, 2500, 2900, 3400, 4000, 4800, 5800, 7000, 8500, 10500, 13500,
    ]);

    /// <summary>Critical-band rate in Bark by Zwicker and Terhardt's formula.</summary>
    /// <param name="frequencyHz">Frequency in Hz, at least 0.</param>
    /// <remarks>Source: Zwicker and Terhardt 1980, z = 13 atan(0.76 f/kHz) + 3.5 atan((f/7.5 kHz)^2).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative.</exception>
    public static double Bark(double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        double square = frequencyHz / 7500.0 * (frequencyHz / 7500.0);
        return (13.0 * Math.Atan(0.76e-3 * frequencyHz)) + (3.5 * Math.Atan(square));
    }

    /// <summary>Critical-band rate in Bark by Traunmueller's formula with its corrections at both ends.</summary>
    /// <param name="frequencyHz">Frequency in Hz, at least 0.</param>
    /// <remarks>
    /// Source: Traunmueller 1990, z = 26.81 f/(1960 + f) - 0.53; below 2 Bark 0.15 (2 - z) is added,
    /// above 20.1 Bark 0.22 (z - 20.1) (the two corrections from memory).
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative.</exception>
    public static double BarkTraunmueller(double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        double bark = (26.81 * frequencyHz / (1960.0 + frequencyHz)) - 0.53;
        return bark switch
        {
            < TraunmuellerLowEndBark => bark + (0.15 * (TraunmuellerLowEndBark - bark)),
            > TraunmuellerHighEndBark => bark + (0.22 * (bark - TraunmuellerHighEndBark)),
            _ => bark,
        };
    }

    /// <summary>Critical-band rate in Bark by straight lines through the band edges and centres; the scale of the roughness model of Daniel and Weber.</summary>
    /// <param name="frequencyHz">Frequency in Hz, at least 0; above 15500 Hz the result stays at 24.</param>
    /// <remarks>Source: Daniel and Weber 1997, section 3 (interpolated table).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative.</exception>
    public static double BarkByTable(double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        for (int band = 0; band < BarkCentresHz.Count; band++)
        {
            double centre = BarkCentresHz[band];
            if (frequencyHz < centre)
            {
                return band + (0.5 * (frequencyHz - BarkEdgesHz[band]) / (centre - BarkEdgesHz[band]));
            }

            double edge = BarkEdgesHz[band + 1];
            if (frequencyHz < edge)
            {
                return band + 0.5 + (0.5 * (frequencyHz - centre) / (edge - centre));
            }
        }

        return BarkCentresHz.Count;
    }

    /// <summary>Critical bandwidth at a frequency, in Hz.</summary>
    /// <param name="frequencyHz">Centre in Hz, at least 0.</param>
    /// <remarks>Source: Zwicker and Terhardt 1980, 25 + 75 (1 + 1.4 (f/kHz)^2)^0.69 (formula from memory).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative.</exception>
    public static double BandwidthHz(double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        return 25.0 + (75.0 * Math.Pow(1.0 + (1.4e-6 * frequencyHz * frequencyHz), 0.69));
    }

    /// <summary>Equivalent rectangular bandwidth at a frequency, in Hz.</summary>
    /// <param name="frequencyHz">Centre in Hz, at least 0.</param>
    /// <remarks>Source: Glasberg and Moore 1990, ERB = 24.7 (4.37 f/kHz + 1) (formula from memory; constant 24.7 seen in print).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative.</exception>
    public static double ErbHz(double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        return 24.7 * ((4.37e-3 * frequencyHz) + 1.0);
    }

    /// <summary>Number of equivalent rectangular bandwidths below a frequency.</summary>
    /// <param name="frequencyHz">Frequency in Hz, at least 0.</param>
    /// <remarks>Source: Glasberg and Moore 1990, 21.4 log10(1 + 0.00437 f) (from memory).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is negative.</exception>
    public static double ErbNumber(double frequencyHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        return 21.4 * Math.Log10(1.0 + (4.37e-3 * frequencyHz));
    }
}
