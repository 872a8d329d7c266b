using System.Numerics;

namespace BrassVox.Synthesis.Living;

/// <summary>The share of a round tube that its boundary layers take: 2 J1(z) / (z J0(z)), at complex z with negative imaginary part.</summary>
/// <remarks>Source: Zwikker and Kosten, Sound Absorbing Materials, 1949; the expansion for wide tubes follows from the Riccati equation of J1/J0.</remarks>
internal static class WallLoss
{
    private const double WideTube = 14;

    internal static Complex Layer(Complex z) => 2 * Ratio(z) / z;

    /// <summary>J1(z) / J0(z).</summary>
    internal static Complex Ratio(Complex z)
    {
        if (z.Magnitude >= WideTube)
        {
            Complex inverse = 1 / z;
            var outward = new Complex(0, -1);
            return outward + (inverse * (0.5 + (inverse * ((-0.125 / outward) - (0.125 * inverse)))));
        }

        // Gauss's continued fraction, from far enough down.
        Complex tail = Complex.Zero;
        for (int k = (int)z.Magnitude + 24; k >= 1; k--)
        {
            tail = 1 / ((2 * k / z) - tail);
        }

        return tail;
    }
}
