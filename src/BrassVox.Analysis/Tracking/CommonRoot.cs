namespace BrassVox.Analysis.Tracking;

/// <summary>Tells a series that two coupled tones make together from the series of one low tone.</summary>
/// <remarks>
/// All lines mP+nS of a nearly just pair a : b lie on the harmonics of P/a, the harmonics of the tones themselves on the multiples
/// of a and b. Neighbouring partials of one tone differ little (a resonance is wider than a partial); those of a common root stand
/// far above what lies between them. The limits are ours, from rendered pairs of every coupling and from recorded single notes.
/// </remarks>
internal static class CommonRoot
{
    private const int HighestPartial = 14;
    private const int HighestMultiple = 8;
    private const double WidestRatio = 4.0;
    private const int FewestBetween = 3;
    private const double LeastStepDb = 9.0;
    private const double FloorDb = -40.0;

    // Under its lower tone a root holds difference lines alone, this far under both tones' first partials.
    private const double LeastUnderDb = 6.0;

    /// <summary>The partials on which two tones stand, when a fitted tone is such a root; null when it is a tone.</summary>
    /// <param name="lines">Lines with their amplitudes, the levelling taken out.</param>
    /// <param name="number">The tone's numbers in them.</param>
    /// <param name="lineHz">Width of one line in Hz.</param>
    public static (int Lower, int Upper)? Of(LineFit lines, int[] number, double lineHz)
    {
        Span<double> levels = stackalloc double[HighestPartial + 1];
        int count = Levels(lines, number, lineHz, levels);
        (int, int)? best = null;
        double most = LeastStepDb;
        for (int b = 3; b <= HighestMultiple; b++)
        {
            for (int a = 2; a < b; a++)
            {
                if (b <= WidestRatio * a && AreCoprime(a, b) && IsEmptyUnder(levels[..(count + 1)], a, b) && StepDb(levels[..(count + 1)], a, b) is var step && step > most)
                {
                    (best, most) = ((a, b), step);
                }
            }
        }

        return best;
    }

    private static int Levels(LineFit lines, int[] number, double lineHz, Span<double> levels)
    {
        levels.Fill(double.NegativeInfinity);
        double most = double.NegativeInfinity;
        int count = 0;
        for (int i = 0; i < lines.Count; i++)
        {
            if (number[i] is > 0 and <= HighestPartial)
            {
                // A line of the other tone there is the same line of the sound.
                double power = Power(lines, i);
                for (int j = i - 1; j <= i + 1; j += 2)
                {
                    if (j >= 0 && j < lines.Count && Math.Abs(lines.FrequencyHz[j] - lines.FrequencyHz[i]) < lineHz)
                    {
                        power = Math.Max(power, Power(lines, j));
                    }
                }

                double level = 10.0 * Math.Log10(power + 1e-30);
                levels[number[i]] = level;
                count = Math.Max(count, number[i]);
                most = Math.Max(most, level);
            }
        }

        for (int k = 1; k <= count; k++)
        {
            levels[k] = Math.Max(levels[k], most + FloorDb);
        }

        return count;
    }

    private static double Power(LineFit lines, int i) => (lines.Re[i] * lines.Re[i]) + (lines.Im[i] * lines.Im[i]);

    private static bool IsEmptyUnder(ReadOnlySpan<double> levels, int a, int b)
    {
        if (b >= levels.Length)
        {
            return false;
        }

        double most = Math.Min(levels[a], levels[b]) - LeastUnderDb;
        foreach (double level in levels[1..a])
        {
            if (level > most)
            {
                return false;
            }
        }

        return true;
    }

    // How far what lies between two multiples stands under the straight line through them, on the average.
    private static double StepDb(ReadOnlySpan<double> levels, int a, int b)
    {
        double sum = 0.0;
        int between = 0;
        for (int k = a + 1; k < levels.Length; k++)
        {
            int below = k;
            int above = k;
            while (!IsMultiple(below))
            {
                below--;
            }

            while (above < levels.Length && !IsMultiple(above))
            {
                above++;
            }

            if (above > k && above < levels.Length)
            {
                double share = (double)(k - below) / (above - below);
                sum += levels[below] + (share * (levels[above] - levels[below])) - levels[k];
                between++;
            }
        }

        return between < FewestBetween ? 0.0 : sum / between;

        bool IsMultiple(int k) => k % a == 0 || k % b == 0;
    }

    private static bool AreCoprime(int a, int b)
    {
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        return a == 1;
    }
}
