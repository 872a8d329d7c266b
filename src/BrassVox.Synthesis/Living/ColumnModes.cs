using System.Numerics;

namespace BrassVox.Synthesis.Living;

/// <summary>Finds the modes of a bore: Newton's method on the flow at the lips, whose zeros are the poles of the input impedance.</summary>
/// <remarks>
/// The residues follow from the derivative at the pole, so nothing is fitted. What the modes leave out is the branch cut of the wall losses,
/// which is measured in the tests.
/// </remarks>
internal static class ColumnModes
{
    private const int Steps = 60;

    /// <summary>The lowest modes, in order of frequency.</summary>
    /// <param name="bore">The bore.</param>
    /// <param name="air">Its air.</param>
    /// <param name="spacingHz">Usual distance of neighbouring modes in Hz: the nominal fundamental.</param>
    /// <param name="count">How many modes, at least 2.</param>
    /// <exception cref="InvalidOperationException">The bore has no such row of modes.</exception>
    internal static ColumnMode[] Find(Bore bore, Air air, double spacingHz, int count)
    {
        List<Complex> poles = [];
        foreach (double peak in Peaks(bore, spacingHz, Math.Min(count, 12)))
        {
            if (!Add(bore, new Complex(-0.12 * spacingHz, 2 * Math.PI * peak), spacingHz, poles))
            {
                throw new InvalidOperationException($"The mode at the peak at {peak} Hz was not found.");
            }
        }

        while (poles.Count < count)
        {
            if (poles.Count < 2)
            {
                throw new InvalidOperationException($"A bore of nominal {spacingHz} Hz has fewer than two resonances.");
            }

            Complex step = poles[^1] - poles[^2];
            if (!Add(bore, poles[^1] + new Complex(0.5 * step.Real, step.Imaginary), spacingHz, poles))
            {
                throw new InvalidOperationException($"After {poles.Count} modes the next one of a bore of nominal {spacingHz} Hz was not found.");
            }
        }

        var modes = new ColumnMode[count];
        for (int i = 0; i < count; i++)
        {
            Complex slope = Slope(bore, poles[i]);
            Complex radiated = poles[i] * air.Density / (4 * Math.PI) / slope;
            modes[i] = new ColumnMode(poles[i], bore.AtPlayer(poles[i]).Pressure / slope, radiated);
        }

        return modes;
    }

    /// <summary>Frequencies at which the magnitude of the input impedance peaks, in Hz, lowest first.</summary>
    internal static List<double> Peaks(Bore bore, double spacingHz, int count)
    {
        double step = spacingHz / 48;
        List<double> peaks = [];
        double before = 0;
        double last = bore.InputImpedance(0.25 * spacingHz).Magnitude;
        for (double hz = (0.25 * spacingHz) + step; peaks.Count < count && hz < spacingHz * (count + 3); hz += step)
        {
            double now = bore.InputImpedance(hz).Magnitude;
            if (last > before && last >= now && before > 0)
            {
                peaks.Add(hz - step + (step * 0.5 * (before - now) / (before - (2 * last) + now)));
            }

            (before, last) = (last, now);
        }

        return peaks;
    }

    private static bool Add(Bore bore, Complex guess, double spacingHz, List<Complex> poles)
    {
        double longestStep = 0.6 * Math.PI * spacingHz;
        foreach (double nudge in (ReadOnlySpan<double>)[0, -0.5, 0.5, -1.5, 1])
        {
            Complex s = guess + (nudge * spacingHz);
            for (int i = 0; i < Steps; i++)
            {
                Complex move = -bore.AtPlayer(s).Flow / Slope(bore, s);
                if (move.Magnitude > longestStep)
                {
                    move *= longestStep / move.Magnitude;
                }

                s += move;
                if (move.Magnitude < 1e-9 * s.Magnitude)
                {
                    break;
                }
            }

            bool found = s.Real < 0 && Math.Abs(s.Imaginary - guess.Imaginary) < Math.PI * spacingHz
                && bore.AtPlayer(s).Flow.Magnitude < 1e-6 * (Slope(bore, s) * s).Magnitude
                && !poles.Exists(pole => (pole - s).Magnitude < 1e-4 * s.Magnitude);
            if (found)
            {
                poles.Add(s);
                return true;
            }
        }

        return false;
    }

    private static Complex Slope(Bore bore, Complex s)
    {
        double h = 1e-4 * s.Magnitude;
        return (bore.AtPlayer(s + h).Flow - bore.AtPlayer(s - h).Flow) / (2 * h);
    }
}
