namespace BrassVox.Synthesis.Living;

/// <summary>Closed forms of the one-mass outward-striking lip valve, in SI units.</summary>
/// <remarks>
/// Source: the model and its dimensionless groups as printed by an open wind-acoustics toolbox (lips of Freour et al., J. Acoust. Soc. Am. 2020);
/// flow by Bernoulli's law.
/// </remarks>
internal static class LipValve
{
    /// <summary>Pressure in Pa that would shut lips of the opposite sign: w^2 (mass per area) (opening).</summary>
    internal static double ClosingPressure(double resonanceHz, double massPerArea, double restOpeningM)
    {
        double omega = 2 * Math.PI * resonanceHz;
        return omega * omega * massPerArea * restOpeningM;
    }

    /// <summary>Mouth pressure in closing pressures.</summary>
    internal static double Gamma(double mouthPressure, double closingPressure) => mouthPressure / closingPressure;

    /// <summary>Flow at the closing pressure through the rest opening, in units of closing pressure over characteristic impedance.</summary>
    internal static double Zeta(double density, double speedOfSound, double boreRadiusM, double restOpeningM, double widthM, double closingPressure)
    {
        double characteristic = density * speedOfSound / (Math.PI * boreRadiusM * boreRadiusM);
        return characteristic * restOpeningM * widthM * Math.Sqrt(2 / (density * closingPressure));
    }

    /// <summary>Speed in m/s of a jet under a pressure difference in Pa.</summary>
    internal static double JetSpeed(double pressure, double density) => Math.Sqrt(2 * pressure / density);

    /// <summary>
    /// Flow in m3/s through an opening of <paramref name="conductance"/> = width x opening x sqrt(2 / density) into a column that answers
    /// <paramref name="history"/> + <paramref name="prompt"/> x flow.
    /// </summary>
    internal static double Flow(double conductance, double mouthPressure, double history, double prompt)
    {
        double difference = mouthPressure - history;
        double half = 0.5 * conductance * conductance * prompt;
        double flow = Math.Sqrt((half * half) + (conductance * conductance * Math.Abs(difference))) - half;
        return difference < 0 ? -flow : flow;
    }
}
