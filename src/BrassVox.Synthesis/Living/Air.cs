namespace BrassVox.Synthesis.Living;

/// <summary>Dry air in a tube at a temperature.</summary>
/// <remarks>
/// Source: the constants of Chaigne and Kergomard, Acoustics of Musical Instruments, chapter 5; speed, density, ratio of heats and viscosity as
/// quoted by an open wind-acoustics toolbox, thermal conductivity from memory.
/// </remarks>
internal sealed class Air
{
    private const double JoulePerCalorie = 4.184;

    /// <summary>Air at a temperature in degrees Celsius, -20 to 50.</summary>
    internal Air(double temperatureC)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(temperatureC, -20);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(temperatureC, 50);
        double kelvin = temperatureC + 273.15;
        SpeedOfSound = 331.45 * Math.Sqrt(kelvin / 273.15);
        Density = 1.2929 * 273.15 / kelvin;
        double viscosity = 1.708e-5 * (1 + (0.0029 * temperatureC));
        double conductivity = 5.77e-3 * JoulePerCalorie * (1 + (0.0033 * temperatureC));
        double heatAtConstantPressure = 240 * JoulePerCalorie;
        ViscousDiffusivity = viscosity / Density;
        ThermalDiffusivity = conductivity / (Density * heatAtConstantPressure);
    }

    /// <summary>Ratio of specific heats.</summary>
    internal const double HeatRatio = 1.402;

    /// <summary>In m/s.</summary>
    internal double SpeedOfSound { get; }

    /// <summary>In kg/m3.</summary>
    internal double Density { get; }

    /// <summary>Kinematic viscosity in m2/s.</summary>
    internal double ViscousDiffusivity { get; }

    /// <summary>In m2/s.</summary>
    internal double ThermalDiffusivity { get; }
}
