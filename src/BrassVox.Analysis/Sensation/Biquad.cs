namespace BrassVox.Analysis.Sensation;

/// <summary>A second-order filter, given by its coefficients (a0 = 1). Immutable; state lives in the run.</summary>
internal readonly record struct Biquad(double B0, double B1, double B2, double A1, double A2)
{
    /// <summary>The filter that does the same at another sample rate.</summary>
    /// <param name="fromHz">Rate the coefficients are meant for.</param>
    /// <param name="toHz">Rate wanted; both far above the filter's corner.</param>
    /// <remarks>Source: the bilinear transform undone at one rate and done at the other, without prewarping (exact mathematics).</remarks>
    internal Biquad CarriedTo(double fromHz, double toHz)
    {
        double ratio = toHz / fromHz;
        (double n0, double n1, double n2) = Carried(B0, B1, B2, ratio);
        (double d0, double d1, double d2) = Carried(1.0, A1, A2, ratio);
        return new Biquad(n0 / d0, n1 / d0, n2 / d0, d1 / d0, d2 / d0);
    }

    /// <summary>Filters in place, starting from rest.</summary>
    /// <param name="samples">Samples.</param>
    internal void Run(Span<double> samples)
    {
        double s1 = 0.0;
        double s2 = 0.0;
        for (int i = 0; i < samples.Length; i++)
        {
            double x = samples[i];
            double y = (B0 * x) + s1;
            s1 = (B1 * x) - (A1 * y) + s2;
            s2 = (B2 * x) - (A2 * y);
            samples[i] = y;
        }
    }

    private static (double C0, double C1, double C2) Carried(double c0, double c1, double c2, double ratio)
    {
        double s0 = c0 + c1 + c2;
        double s1 = 2.0 * (c0 - c2) * ratio;
        double s2 = (c0 - c1 + c2) * ratio * ratio;
        return (s0 + s1 + s2, 2.0 * (s0 - s2), s0 - s1 + s2);
    }
}
