using System.Numerics;

namespace BrassVox.Synthesis.Living;

/// <summary>
/// One resonance of an air column: a complex pole and its conjugate. Input impedance and transfer to the outside are the sums over all modes of
/// C / (s - pole), conjugates added.
/// </summary>
/// <param name="Pole">In rad/s, real part negative.</param>
/// <param name="Pressure">Residue of the input impedance, in Pa/m3.</param>
/// <param name="Radiated">Residue of the pressure 1 m from a bell that radiates in all directions, per flow at the lips.</param>
internal readonly record struct ColumnMode(Complex Pole, Complex Pressure, Complex Radiated)
{
    /// <summary>Natural frequency in Hz: the pole's distance from zero.</summary>
    internal double FrequencyHz => Pole.Magnitude / (2 * Math.PI);

    /// <summary>Quality factor: natural frequency over -3 dB width.</summary>
    internal double Q => Pole.Magnitude / (-2 * Pole.Real);

    /// <summary>
    /// The mode of p'' + (w/Q) p' + w^2 p = Z (w/Q) u': gain Z at its natural frequency, -3 dB width frequency / Q.
    /// Its radiated residue is the same, so that the output is the pressure.
    /// </summary>
    /// <remarks>Source: the modal form of the input impedance used by Silva and by Velut (from memory).</remarks>
    internal static ColumnMode FromPeak(double frequencyHz, double q, double peak)
    {
        double omega = 2 * Math.PI * frequencyHz;
        double half = omega / (2 * q);
        var pole = new Complex(-half, Math.Sqrt((omega * omega) - (half * half)));
        Complex residue = peak * (omega / q) * pole / (pole - Complex.Conjugate(pole));
        return new ColumnMode(pole, residue, residue);
    }

    /// <summary>Input impedance of modes at a real frequency.</summary>
    internal static Complex Impedance(IReadOnlyList<ColumnMode> modes, double frequencyHz) =>
        Sum(modes, frequencyHz, mode => mode.Pressure);

    /// <summary>Radiated pressure per flow of modes at a real frequency.</summary>
    internal static Complex Transfer(IReadOnlyList<ColumnMode> modes, double frequencyHz) =>
        Sum(modes, frequencyHz, mode => mode.Radiated);

    private static Complex Sum(IReadOnlyList<ColumnMode> modes, double frequencyHz, Func<ColumnMode, Complex> residue)
    {
        var s = new Complex(0, 2 * Math.PI * frequencyHz);
        Complex sum = Complex.Zero;
        foreach (ColumnMode mode in modes)
        {
            Complex c = residue(mode);
            sum += (c / (s - mode.Pole)) + (Complex.Conjugate(c) / (s - Complex.Conjugate(mode.Pole)));
        }

        return sum;
    }
}
