namespace BrassVox.Synthesis;

/// <summary>Tones that the ear itself makes of two others: where they lie and how strong they are heard. They are in no recording; the program can add them as an illustration.</summary>
public static class EarTones
{
    /// <summary>Level at which the quadratic difference tone S - P is heard, in dB SPL.</summary>
    /// <param name="lowerDbSpl">Level of the lower tone in dB SPL.</param>
    /// <param name="upperDbSpl">Level of the upper tone in dB SPL.</param>
    /// <remarks>Source: L1 + L2 - 130 dB, from memory of H. Fastl, E. Zwicker, Psychoacoustics, ch. 14. Differs by many dB between listeners.</remarks>
    public static double QuadraticLevelDbSpl(double lowerDbSpl, double upperDbSpl) => lowerDbSpl + upperDbSpl - 130;

    /// <summary>Level at which the cubic difference tone 2P - S is heard, in dB SPL.</summary>
    /// <param name="lowerDbSpl">Level of the lower tone in dB SPL, 60 to 80.</param>
    /// <param name="upperDbSpl">Level of the upper tone in dB SPL, 60 to 80.</param>
    /// <remarks>An engineering rule, 2 L1 - L2 - 63 dB at 60 to 80 dB; the ear's own growth is slower (J. Goldstein, JASA 41, 1967, from memory) and falls with the width of the interval.</remarks>
    public static double CubicLevelDbSpl(double lowerDbSpl, double upperDbSpl) => (2 * lowerDbSpl) - upperDbSpl - 63;
}
