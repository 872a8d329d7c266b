using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Sessions;

/// <summary>A figure with the range in which it likely lies.</summary>
/// <param name="Value">The figure.</param>
/// <param name="Low">Lower end of the 95 per cent range.</param>
/// <param name="High">Upper end of the 95 per cent range.</param>
public readonly record struct Estimate(double Value, double Low, double High)
{
    /// <summary>Share of successes with its Wilson score interval (95 per cent).</summary>
    /// <param name="right">Successes, 0 to <paramref name="of"/>.</param>
    /// <param name="of">Trials, at least 1.</param>
    /// <remarks>Source: E. B. Wilson 1927, "Probable inference, the law of succession, and statistical inference", JASA 22 (formula from memory).</remarks>
    public static Estimate OfProportion(int right, int of)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(of, 1);
        const double z = 1.959964;
        double share = (double)right / of;
        double centre = (share + (z * z / (2 * of))) / (1 + (z * z / of));
        double half = z / (1 + (z * z / of)) * Math.Sqrt((share * (1 - share) / of) + (z * z / (4.0 * of * of)));
        return new Estimate(share, Math.Max(0, centre - half), Math.Min(1, centre + half));
    }

    /// <summary>Median with the narrowest symmetric pair of order statistics that covers it in at least 95 per cent of samples; null for fewer than six values, which cannot.</summary>
    /// <param name="values">The values, any order.</param>
    /// <remarks>Source: the sign-test interval for a median: coverage 1 - 2 P(B &lt; j), B binomial (n, 1/2); exact. Six values are the fewest whose extremes reach 95 per cent (96.9).</remarks>
    public static Estimate? OfMedian(IReadOnlyList<double> values)
    {
        if (values.Count < 6)
        {
            return null;
        }

        double[] sorted = [.. values.Order()];
        int n = sorted.Length;
        double probability = Math.Pow(0.5, n);
        double below = probability;
        int rank = 0;
        for (int j = 1; j < n / 2; j++)
        {
            probability *= (double)(n - j + 1) / j;
            below += probability;
            if (2 * below > 0.05)
            {
                break;
            }

            rank = j;
        }

        return new Estimate(Median.Of(sorted), sorted[rank], sorted[n - 1 - rank]);
    }
}
