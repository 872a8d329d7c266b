using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>One period of the derivative of glottal flow, period and negative peak both 1: the LF model, its shape given by Rd.</summary>
/// <remarks>
/// Source: G. Fant, J. Liljencrants, Q. Lin, A four-parameter model of glottal flow (1985); Rd and the predicted R-parameters:
/// G. Fant, The LF-model revisited (1995) and The voice source in connected speech (1997), eq. A1.
/// </remarks>
internal sealed class GlottalPulse
{
    /// <summary>Solves the model for an Rd of 0.3 to 2.7.</summary>
    internal GlottalPulse(double rd)
    {
        if (!(rd is >= 0.3 and <= 2.7))
        {
            throw new ArgumentOutOfRangeException(nameof(rd), rd, "Rd lies from 0.3 to 2.7.");
        }

        Rd = rd;
        Ra = (-1 + (4.8 * rd)) / 100;
        Rk = (22.4 + (11.8 * rd)) / 100;
        Rg = Rk * (0.5 + (1.2 * Rk)) / ((0.44 * rd) - (4 * Ra * (0.5 + (1.2 * Rk))));
        PeakAt = 1 / (2 * Rg);
        ExcitationAt = PeakAt * (1 + Rk);
        ReturnTime = Ra;
        ReturnRate = SolveReturnRate();
        Growth = SolveGrowth();
        OpeningScale = ScaleFor(Growth);
    }

    internal double Rd { get; }

    internal double Ra { get; }

    internal double Rk { get; }

    internal double Rg { get; }

    /// <summary>Tp: time of the flow's maximum, in periods.</summary>
    internal double PeakAt { get; }

    /// <summary>Te: time of the main excitation, in periods.</summary>
    internal double ExcitationAt { get; }

    /// <summary>Ta, in periods.</summary>
    internal double ReturnTime { get; }

    /// <summary>Epsilon, per period.</summary>
    internal double ReturnRate { get; }

    /// <summary>Alpha, per period.</summary>
    internal double Growth { get; }

    /// <summary>E0.</summary>
    internal double OpeningScale { get; }

    /// <summary>Rd from the other three, the inverse of the prediction.</summary>
    internal static double RdFrom(double ra, double rk, double rg) =>
        (0.5 + (1.2 * rk)) * ((rk / (4 * rg)) + ra) / 0.11;

    /// <summary>Flow derivative at a time of 0 to 1 period.</summary>
    internal double At(double time) =>
        time <= ExcitationAt
            ? OpeningScale * Math.Exp(Growth * time) * Math.Sin(Math.PI * time / PeakAt)
            : -(Math.Exp(-ReturnRate * (time - ExcitationAt)) - Math.Exp(-ReturnRate * (1 - ExcitationAt))) / (ReturnRate * ReturnTime);

    /// <summary>Complex amplitude of a harmonic from 1: the pulse is the sum of Re(c_n e^(2 pi i n t)). Closed form.</summary>
    internal Complex Harmonic(double number)
    {
        Complex turn = new(0, 2 * Math.PI * number);
        Complex swing = new(0, Math.PI / PeakAt);
        Complex up = Growth - turn + swing;
        Complex down = Growth - turn - swing;
        Complex opening = OpeningScale / new Complex(0, 2)
            * (((Complex.Exp(up * ExcitationAt) - 1) / up) - ((Complex.Exp(down * ExcitationAt) - 1) / down));
        double rest = 1 - ExcitationAt;
        Complex closing = -Complex.Exp(-turn * ExcitationAt) / (ReturnRate * ReturnTime)
            * (((1 - Complex.Exp(-(ReturnRate + turn) * rest)) / (ReturnRate + turn))
                - (Math.Exp(-ReturnRate * rest) * (1 - Complex.Exp(-turn * rest)) / turn));
        return 2 * (opening + closing);
    }

    private double SolveReturnRate()
    {
        double rest = 1 - ExcitationAt;
        double rate = 1 / ReturnTime;
        for (int i = 0; i < 200; i++)
        {
            rate = (1 - Math.Exp(-rate * rest)) / ReturnTime;
        }

        return rate;
    }

    // The net area is zero: it falls as the growth rises, so halving finds it.
    private double SolveGrowth()
    {
        double rest = 1 - ExcitationAt;
        double closing = -(((1 - Math.Exp(-ReturnRate * rest)) / ReturnRate) - (rest * Math.Exp(-ReturnRate * rest))) / (ReturnRate * ReturnTime);
        double low = -20;
        double high = 100;
        for (int i = 0; i < 200; i++)
        {
            double middle = 0.5 * (low + high);
            double swing = Math.PI / PeakAt;
            double opening = ScaleFor(middle)
                * ((Math.Exp(middle * ExcitationAt) * ((middle * Math.Sin(swing * ExcitationAt)) - (swing * Math.Cos(swing * ExcitationAt)))) + swing)
                / ((middle * middle) + (swing * swing));
            if (opening + closing > 0)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return 0.5 * (low + high);
    }

    private double ScaleFor(double growth) => -1 / (Math.Exp(growth * ExcitationAt) * Math.Sin(Math.PI * ExcitationAt / PeakAt));
}
