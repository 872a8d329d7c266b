namespace BrassVox.Theory;

/// <summary>Roughness of partials taken two by two: cheap enough to draw while a tone glides.</summary>
/// <remarks>
/// Pure functions, any thread. The values say where a pair is rougher or smoother than elsewhere;
/// they are not asper. For asper measure the sound with the model of Daniel and Weber in the analysis room.
/// Source of the shape: Plomp and Levelt 1965, the roughest distance of two pure tones is near a quarter of the critical band.
/// </remarks>
public static class PairwiseRoughness
{
    private const double SlowDecay = 3.5;
    private const double SetharesSlowDecay = 3.51;
    private const double FastDecay = 5.75;
    private const double RoughestAt = 0.24;
    private const double Slope = 0.0207;
    private const double OffsetHz = 18.96;
    private const double SetharesScale = 5.0;

    /// <summary>Roughness of two partials by Sethares.</summary>
    /// <param name="first">One partial.</param>
    /// <param name="second">The other; the order does not matter.</param>
    /// <returns>At least 0, in Sethares' unit; 0.899 for two partials of amplitude 1 at their roughest distance.</returns>
    /// <remarks>
    /// Source: Sethares 1993 in the form of his later programs: 5 min(a1, a2) (exp(-3.51 s D) - exp(-5.75 s D)),
    /// s = 0.24 / (0.0207 f_lower + 18.96), D = distance in Hz.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">A frequency is not positive or an amplitude negative.</exception>
    public static double Sethares(Partial first, Partial second)
    {
        Check(first);
        Check(second);
        double weaker = Math.Min(first.Amplitude, second.Amplitude);
        return SetharesScale * weaker * Shape(first.FrequencyHz, second.FrequencyHz, SetharesSlowDecay);
    }

    /// <summary>Roughness of two partials by Vassilakis.</summary>
    /// <param name="first">One partial.</param>
    /// <param name="second">The other; the order does not matter.</param>
    /// <returns>At least 0, in Vassilakis' unit; 0 when either is silent.</returns>
    /// <remarks>
    /// Source: Vassilakis 2001, equation 6.23: (A1 A2)^0.1 / 2 (2 A_min / (A1 + A2))^3.11 (exp(-3.5 s D) - exp(-5.75 s D)),
    /// s as in <see cref="Sethares"/>.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">A frequency is not positive or an amplitude negative.</exception>
    public static double Vassilakis(Partial first, Partial second)
    {
        Check(first);
        Check(second);
        double weaker = Math.Min(first.Amplitude, second.Amplitude);
        if (weaker == 0.0)
        {
            return 0.0;
        }

        double level = Math.Pow(first.Amplitude * second.Amplitude, 0.1);
        double depth = Math.Pow(2.0 * weaker / (first.Amplitude + second.Amplitude), 3.11);
        return 0.5 * level * depth * Shape(first.FrequencyHz, second.FrequencyHz, SlowDecay);
    }

    /// <summary>Roughness of a sound: all its partials, two by two.</summary>
    /// <param name="partials">Partials in any order; none or one gives 0.</param>
    /// <param name="model">Formula for each pair.</param>
    /// <exception cref="ArgumentOutOfRangeException">A frequency is not positive, an amplitude negative, or the model unknown.</exception>
    public static double Of(ReadOnlySpan<Partial> partials, RoughnessModel model = RoughnessModel.Sethares)
    {
        double sum = 0.0;
        for (int i = 1; i < partials.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                sum += model switch
                {
                    RoughnessModel.Sethares => Sethares(partials[i], partials[j]),
                    RoughnessModel.Vassilakis => Vassilakis(partials[i], partials[j]),
                    _ => throw new ArgumentOutOfRangeException(nameof(model), model, "No such roughness model."),
                };
            }
        }

        return sum;
    }

    /// <summary>Distance in Hz at which a second pure tone above a first is roughest.</summary>
    /// <param name="lowerHz">The lower tone in Hz, &gt; 0.</param>
    /// <remarks>Source: maximum of the bracket in <see cref="Sethares"/>, at s D = ln(5.75 / 3.51) / (5.75 - 3.51) = 0.2204 (exact).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The frequency is not positive.</exception>
    public static double RoughestDistanceHz(double lowerHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(lowerHz);
        double place = Math.Log(FastDecay / SetharesSlowDecay) / (FastDecay - SetharesSlowDecay);
        return place / Scaling(lowerHz);
    }

    private static double Shape(double firstHz, double secondHz, double slowDecay)
    {
        double distance = Scaling(Math.Min(firstHz, secondHz)) * Math.Abs(firstHz - secondHz);
        return Math.Exp(-slowDecay * distance) - Math.Exp(-FastDecay * distance);
    }

    private static double Scaling(double lowerHz) => RoughestAt / ((Slope * lowerHz) + OffsetHz);

    private static void Check(Partial partial)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(partial.FrequencyHz);
        ArgumentOutOfRangeException.ThrowIfNegative(partial.Amplitude);
    }
}
