namespace BrassVox.Theory;

/// <summary>Cents: 1200 to the octave, logarithmic in frequency.</summary>
/// <remarks>Source: A. J. Ellis's definition, cents = 1200 log2(f2/f1); exact mathematics.</remarks>
public static class Cents
{
    /// <summary>Cents in an octave.</summary>
    public const double PerOctave = 1200.0;

    /// <summary>Cents from one frequency up to another; negative when <paramref name="toHz"/> is lower.</summary>
    /// <param name="fromHz">Start in Hz, &gt; 0; otherwise the result is NaN or infinite.</param>
    /// <param name="toHz">End in Hz, &gt; 0; otherwise the result is NaN or infinite.</param>
    public static double Between(double fromHz, double toHz) => PerOctave * Math.Log2(toHz / fromHz);

    /// <summary>Frequency ratio of an interval.</summary>
    /// <param name="cents">Interval in cents, any sign.</param>
    public static double ToRatio(double cents) => double.Exp2(cents / PerOctave);

    /// <summary>Frequency that lies <paramref name="cents"/> above <paramref name="fromHz"/>, in Hz.</summary>
    /// <param name="fromHz">Start in Hz, &gt; 0.</param>
    /// <param name="cents">Interval in cents, any sign.</param>
    public static double Above(double fromHz, double cents) => fromHz * ToRatio(cents);
}
