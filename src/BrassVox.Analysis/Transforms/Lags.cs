namespace BrassVox.Analysis.Transforms;

/// <summary>Sums of products of two long signals at many lags, by transforms of blocks.</summary>
internal static class Lags
{
    /// <summary>c(j) = sum over n of a(n) b(n - j), for j from 0 to <paramref name="count"/> - 1; b is 0 before its start.</summary>
    /// <param name="a">The later signal.</param>
    /// <param name="b">The earlier signal; it counts as far as <paramref name="a"/> reaches.</param>
    /// <param name="count">Number of lags, at least 1.</param>
    internal static double[] Of(ReadOnlySpan<double> a, ReadOnlySpan<double> b, int count)
    {
        var plan = new FourierPlan(FourierPlan.FastLength(4 * count));
        int size = plan.Length;
        int block = size - count;
        double[] aRe = new double[size], aIm = new double[size];
        double[] bRe = new double[size], bIm = new double[size];
        double[] sumRe = new double[size], sumIm = new double[size];
        for (int start = 0; start < a.Length; start += block)
        {
            for (int i = 0; i < size; i++)
            {
                // The block of a begins count samples in, so that all earlier b it needs stand before it.
                int n = start + i - count;
                aRe[i] = i >= count && n < a.Length ? a[n] : 0.0;
                bRe[i] = n >= 0 && n < b.Length ? b[n] : 0.0;
            }

            Array.Clear(aIm);
            Array.Clear(bIm);
            plan.Forward(aRe, aIm);
            plan.Forward(bRe, bIm);
            for (int k = 0; k < size; k++)
            {
                sumRe[k] += (aRe[k] * bRe[k]) + (aIm[k] * bIm[k]);
                sumIm[k] += (aIm[k] * bRe[k]) - (aRe[k] * bIm[k]);
            }
        }

        plan.Inverse(sumRe, sumIm);
        return sumRe[..count];
    }
}
