namespace BrassVox.Synthesis.Living;

/// <summary>What one setting of lips and breath sounds like once it stands still.</summary>
/// <param name="FrequencyHz">Pitch in Hz; 0 when nothing sounds.</param>
/// <param name="DriftCents">Change of pitch from the first to the second half of the time measured.</param>
/// <param name="LoudnessDb">K-weighted level 1 m from the bell, dB re 1 Pa.</param>
internal readonly record struct SteadyTone(double FrequencyHz, double DriftCents, double LoudnessDb)
{
    private const int Harmonics = 48;

    /// <summary>Blows one setting on the grid of a bore, valves up.</summary>
    /// <param name="modes">Modes of the column.</param>
    /// <param name="bore">The instrument.</param>
    /// <param name="lipHz">Resonance of the lips in Hz.</param>
    /// <param name="blowing">Breath.</param>
    /// <param name="expectedHz">Pitch of the attack's burst in Hz.</param>
    /// <param name="settleSeconds">Time before measuring.</param>
    /// <param name="measureSeconds">Time measured.</param>
    internal static SteadyTone Measure(
        IReadOnlyList<ColumnMode> modes, BrassBore bore, double lipHz, BlowingState blowing, double expectedHz, double settleSeconds, double measureSeconds)
    {
        const double Grid = BrassBore.GridHz;
        var reed = new LipReed(modes, bore.Lips, bore.Air.Density, Grid)
        {
            RestOpeningM = bore.Lips.RestOpeningMm * 0.001 * blowing.OpeningFactor,
        };
        reed.TuneLips(lipHz);
        var attack = default(Attack);
        attack.FromRest();
        attack.Begin(expectedHz, Grid, 1, Grid);
        var clock = new CrossingClock(0.25 * Grid);
        var radiated = new double[(int)(measureSeconds * Grid)];
        for (int i = (int)(settleSeconds * Grid); i > 0; i--)
        {
            reed.Step(blowing.MouthPressurePa * attack.Step());
            clock.Step(reed.OpeningM);
        }

        Span<double> halves = stackalloc double[2];
        int at = 0;
        for (int half = 0; half < 2; half++)
        {
            clock.Restart();
            for (; at < radiated.Length * (half + 1) / 2; at++)
            {
                reed.Step(blowing.MouthPressurePa * attack.Step());
                clock.Step(reed.OpeningM);
                radiated[at] = reed.Radiated;
            }

            halves[half] = clock.PeriodSteps;
        }

        if (reed.IsBroken || halves[0] == 0 || halves[1] == 0)
        {
            return new SteadyTone(0, 0, -200);
        }

        double hz = Grid / halves[1];
        return new SteadyTone(hz, 1200 * Math.Log2(halves[0] / halves[1]), Loudness(radiated, hz));
    }

    private static double Loudness(ReadOnlySpan<double> pressure, double frequencyHz)
    {
        double power = 0;
        for (int n = 1; n <= Harmonics && n * frequencyHz < 20000; n++)
        {
            double turn = 2 * Math.PI * n * frequencyHz / BrassBore.GridHz;
            double real = 0;
            double imaginary = 0;
            for (int i = 0; i < pressure.Length; i++)
            {
                (double sine, double cosine) = Math.SinCos(turn * i);
                double window = 1 - Math.Cos(2 * Math.PI * i / pressure.Length);
                real += pressure[i] * window * cosine;
                imaginary += pressure[i] * window * sine;
            }

            double square = ((real * real) + (imaginary * imaginary)) * 2 / ((double)pressure.Length * pressure.Length);
            power += square * KWeightingCurve.PowerGain(n * frequencyHz);
        }

        return 10 * Math.Log10(power + 1e-20);
    }
}
