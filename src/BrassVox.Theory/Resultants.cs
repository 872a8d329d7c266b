namespace BrassVox.Theory;

/// <summary>The lines that a non-linear meeting of two tones can make.</summary>
/// <remarks>Source: any non-linear stage fed with P and S yields |m P + n S|; order |m| + |n| (H. Helmholtz, On the Sensations of Tone, ch. VII, for the first orders; exact arithmetic).</remarks>
public static class Resultants
{
    /// <summary>Highest order that can be asked for.</summary>
    public const int HighestOrder = 12;

    /// <summary>Every m P + n S up to an order, harmonics of the single tones included, lowest first.</summary>
    /// <param name="playedHz">P in Hz, finite and &gt; 0.</param>
    /// <param name="sungHz">S in Hz, finite and &gt; 0.</param>
    /// <param name="order">Highest |m| + |n|, 1 to <see cref="HighestOrder"/>.</param>
    /// <returns>Lines above 0 Hz in rising frequency, ties by order. A line that falls on 0 Hz exactly is left out: it does not sound.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static IReadOnlyList<Resultant> Of(double playedHz, double sungHz, int order)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(playedHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sungHz);
        ArgumentOutOfRangeException.ThrowIfLessThan(order, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(order, HighestOrder);

        List<Resultant> lines = [];
        for (int m = -order; m <= order; m++)
        {
            int most = order - Math.Abs(m);
            for (int n = -most; n <= most; n++)
            {
                double hz = (m * playedHz) + (n * sungHz);
                if (hz > 1e-9 * Math.Max(playedHz, sungHz))
                {
                    lines.Add(new Resultant(m, n, hz));
                }
            }
        }

        lines.Sort((a, b) => a.FrequencyHz.CompareTo(b.FrequencyHz) is var byHz and not 0 ? byHz : a.Order.CompareTo(b.Order));
        return lines;
    }
}
