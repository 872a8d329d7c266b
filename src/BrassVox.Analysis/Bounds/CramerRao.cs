namespace BrassVox.Analysis.Bounds;

/// <summary>The bound of Cramer and Rao: how exactly a pitch can be measured from a window at all, in white noise.</summary>
/// <remarks>Pure functions, any thread. A player's own unsteadiness is not in it; it is a yardstick for the method.</remarks>
public static class CramerRao
{
    private const double Singular = 1e-10;

    /// <summary>Bound for the frequency of one real sinusoid of unknown amplitude and phase, as a standard deviation in Hz.</summary>
    /// <param name="sampleRateHz">Rate in Hz, &gt; 0.</param>
    /// <param name="samples">Window length, at least 2.</param>
    /// <param name="signalToNoiseDb">Power of the sinusoid over the power of the noise in the whole band, in dB.</param>
    /// <remarks>Source: Rife and Boorstyn 1974; Kay 1993: var f = 12 fs^2 / ((2 pi)^2 eta N (N^2 - 1)) (from memory).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">Rate or length is outside its range.</exception>
    public static double SinusoidHz(double sampleRateHz, int samples, double signalToNoiseDb)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHz);
        ArgumentOutOfRangeException.ThrowIfLessThan(samples, 2);
        double ratio = Math.Pow(10.0, signalToNoiseDb / 10.0);
        double n = samples;
        return sampleRateHz / (2.0 * Math.PI) * Math.Sqrt(12.0 / (ratio * n * ((n * n) - 1.0)));
    }

    /// <summary>Bound for both fundamentals of two harmonic tones, all amplitudes and phases unknown.</summary>
    /// <param name="played">One tone; harmonics over half the rate are left out.</param>
    /// <param name="sung">The other; likewise.</param>
    /// <param name="noiseRms">RMS of the white noise over the whole band, &gt; 0.</param>
    /// <param name="sampleRateHz">Rate in Hz, &gt; 0.</param>
    /// <param name="samples">Window length, at least 2.</param>
    /// <remarks>Source: Fisher's information matrix of the model, worked numerically; the linear unknowns are projected out (Kay 1993).</remarks>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public static PairBound PairHz(
        HarmonicTone played, HarmonicTone sung, double noiseRms, double sampleRateHz, int samples)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(noiseRms);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHz);
        ArgumentOutOfRangeException.ThrowIfLessThan(samples, 2);
        List<double[]> unknowns = [];
        double[] byPlayed = Slope(played, sampleRateHz, samples, unknowns);
        double[] bySung = Slope(sung, sampleRateHz, samples, unknowns);
        double playedBefore = Dot(byPlayed, byPlayed);
        double sungBefore = Dot(bySung, bySung);
        foreach (double[] direction in Orthonormal(unknowns))
        {
            Remove(byPlayed, direction);
            Remove(bySung, direction);
        }

        double pp = Dot(byPlayed, byPlayed), ss = Dot(bySung, bySung), ps = Dot(byPlayed, bySung);
        bool playedLeft = pp > Singular * playedBefore;
        bool sungLeft = ss > Singular * sungBefore;
        double played2 = playedLeft && sungLeft ? pp - (ps * ps / ss) : pp;
        double sung2 = playedLeft && sungLeft ? ss - (ps * ps / pp) : ss;
        return new PairBound(
            played2 > Singular * playedBefore ? noiseRms / Math.Sqrt(played2) : double.PositiveInfinity,
            sung2 > Singular * sungBefore ? noiseRms / Math.Sqrt(sung2) : double.PositiveInfinity);
    }

    /// <summary>Derivative of a tone by its fundamental; the derivatives by amplitude and phase are added to the unknowns.</summary>
    private static double[] Slope(HarmonicTone tone, double sampleRateHz, int samples, List<double[]> unknowns)
    {
        double[] slope = new double[samples];
        for (int k = 1; k <= tone.Amplitudes.Count && k * tone.FundamentalHz < 0.5 * sampleRateHz; k++)
        {
            double[] cosine = new double[samples];
            double[] sine = new double[samples];
            for (int n = 0; n < samples; n++)
            {
                double t = (n - (0.5 * (samples - 1))) / sampleRateHz;
                double angle = 2.0 * Math.PI * k * tone.FundamentalHz * t;
                (sine[n], cosine[n]) = Math.SinCos(angle);
                slope[n] -= 2.0 * Math.PI * k * t * tone.Amplitudes[k - 1] * Math.Sin(angle + tone.PhasesRadians[k - 1]);
            }

            unknowns.Add(cosine);
            unknowns.Add(sine);
        }

        return slope;
    }

    /// <summary>
    /// A basis of what the unknowns span. Of two lines that coincide the second counts as it does for lines ever closer: as the
    /// first times the time from the middle of the window.
    /// </summary>
    private static List<double[]> Orthonormal(List<double[]> vectors)
    {
        List<double[]> basis = [];
        foreach (double[] vector in vectors)
        {
            if (!TryAdd(basis, (double[])vector.Clone()))
            {
                double middle = 0.5 * (vector.Length - 1);
                TryAdd(basis, [.. vector.Select((value, n) => value * (n - middle))]);
            }
        }

        return basis;
    }

    private static bool TryAdd(List<double[]> basis, double[] vector)
    {
        double before = Dot(vector, vector);

        // Twice, so that rounding does not spoil the angle between near-equal lines.
        for (int pass = 0; pass < 2; pass++)
        {
            foreach (double[] direction in basis)
            {
                Remove(vector, direction);
            }
        }

        double length = Dot(vector, vector);
        if (length <= Singular * before)
        {
            return false;
        }

        Scale(vector, 1.0 / Math.Sqrt(length));
        basis.Add(vector);
        return true;
    }

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0.0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }

    private static void Remove(double[] vector, double[] direction)
    {
        double share = Dot(vector, direction);
        for (int i = 0; i < vector.Length; i++)
        {
            vector[i] -= share * direction[i];
        }
    }

    private static void Scale(double[] vector, double factor)
    {
        for (int i = 0; i < vector.Length; i++)
        {
            vector[i] *= factor;
        }
    }
}
