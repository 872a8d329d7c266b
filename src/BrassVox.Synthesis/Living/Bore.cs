using System.Numerics;

namespace BrassVox.Synthesis.Living;

/// <summary>
/// Acoustics of a bore by transfer matrices: short cylinders with viscous and thermal losses, ended by the radiation of an unflanged opening.
/// Works at complex frequencies, so that resonances can be found as poles.
/// </summary>
/// <remarks>
/// Sources: losses, Zwikker and Kosten 1949; radiation, the fit of Silva, Guillemain, Kergomard, Mallaroni and Norris, J. Sound Vib. 322 (2009),
/// coefficients 0.167, 1.393, 0.457. Wave fronts are taken as plane, also in the flare: lengths of our own bells are fitted under that assumption.
/// </remarks>
internal sealed class Bore
{
    private const double RatioPerSlice = 0.03;
    private const double LongestSliceM = 0.02;
    private readonly double[] _lengthM;
    private readonly double[] _radiusM;
    private readonly double _mouthRadiusM;
    private readonly Air _air;
    private readonly bool _ideal;

    /// <summary>Cuts a bore into slices.</summary>
    /// <param name="sections">From the player to the bell.</param>
    /// <param name="air">The air in it.</param>
    /// <param name="ideal">True: no losses, and an end without pressure, as in the textbook's closed forms.</param>
    internal Bore(IReadOnlyList<BoreSection> sections, Air air, bool ideal = false)
    {
        List<double> lengths = [];
        List<double> radii = [];
        foreach (BoreSection section in sections)
        {
            Cut(section, lengths, radii);
        }

        _lengthM = [.. lengths];
        _radiusM = [.. radii];
        _mouthRadiusM = sections[^1].EndRadiusMm * 0.001;
        _air = air;
        _ideal = ideal;
    }

    /// <summary>Pressure in Pa and flow in m3/s at the player's end while 1 m3/s leaves the bell, at a complex frequency in rad/s.</summary>
    internal (Complex Pressure, Complex Flow) AtPlayer(Complex s)
    {
        Complex pressure = _ideal ? Complex.Zero : RadiationImpedance(s);
        Complex flow = Complex.One;
        Complex viscous = Complex.Sqrt(-s / _air.ViscousDiffusivity);
        Complex thermal = Complex.Sqrt(-s / _air.ThermalDiffusivity);
        double stiffness = _air.Density * _air.SpeedOfSound * _air.SpeedOfSound;
        for (int i = _lengthM.Length - 1; i >= 0; i--)
        {
            double radius = _radiusM[i];
            double area = Math.PI * radius * radius;
            Complex series = s * _air.Density / area;
            Complex shunt = s * area / stiffness;
            if (!_ideal)
            {
                series /= 1 - WallLoss.Layer(viscous * radius);
                shunt *= 1 + ((Air.HeatRatio - 1) * WallLoss.Layer(thermal * radius));
            }

            Complex propagation = Complex.Sqrt(series * shunt);
            Complex characteristic = series / propagation;
            Complex out1 = Complex.Exp(propagation * _lengthM[i]);
            Complex back = 1 / out1;
            Complex cosh = (out1 + back) * 0.5;
            Complex sinh = (out1 - back) * 0.5;
            (pressure, flow) = ((cosh * pressure) + (characteristic * sinh * flow), (sinh / characteristic * pressure) + (cosh * flow));
        }

        return (pressure, flow);
    }

    /// <summary>Input impedance at a real frequency, in Pa s/m3.</summary>
    internal Complex InputImpedance(double frequencyHz)
    {
        (Complex pressure, Complex flow) = AtPlayer(new Complex(0, 2 * Math.PI * frequencyHz));
        return pressure / flow;
    }

    private Complex RadiationImpedance(Complex s)
    {
        const double N1 = 0.167;
        const double D1 = 1.393;
        const double D2 = 0.457;
        Complex jka = s * _mouthRadiusM / _air.SpeedOfSound;
        double characteristic = _air.Density * _air.SpeedOfSound / (Math.PI * _mouthRadiusM * _mouthRadiusM);
        return characteristic * jka * (D1 - N1 + (D2 * jka)) / (2 + ((D1 + N1) * jka) + (D2 * jka * jka));
    }

    private static void Cut(BoreSection section, List<double> lengths, List<double> radii)
    {
        double length = section.LengthMm * 0.001;
        double start = section.StartRadiusMm * 0.001;
        double end = section.EndRadiusMm * 0.001;
        if (section.Shape == BoreShape.Cylinder)
        {
            lengths.Add(length);
            radii.Add(start);
            return;
        }

        int count = Math.Max((int)Math.Ceiling(Math.Abs(Math.Log(end / start)) / RatioPerSlice), (int)Math.Ceiling(length / LongestSliceM));
        double lastAt = 0;
        double lastRadius = start;
        for (int i = 1; i <= count; i++)
        {
            // Equal ratios of radius where the tube opens, equal lengths where it hardly does.
            double byRatio = start * Math.Pow(end / start, (double)i / count);
            double at = i == count ? length : 0.5 * ((length * i / count) + PlaceOf(byRatio, section, length, start, end));
            double radius = RadiusAt(at, section, length, start, end);
            lengths.Add(at - lastAt);
            radii.Add(0.5 * (lastRadius + radius));
            lastAt = at;
            lastRadius = radius;
        }
    }

    private static double RadiusAt(double at, BoreSection section, double length, double start, double end)
    {
        if (section.Shape == BoreShape.Cone)
        {
            return start + ((end - start) * at / length);
        }

        double offset = BesselOffset(section, length, start, end);
        return end * Math.Pow((length - at + offset) / offset, -section.FlareExponent);
    }

    private static double PlaceOf(double radius, BoreSection section, double length, double start, double end)
    {
        if (section.Shape == BoreShape.Cone)
        {
            return start == end ? length : length * (radius - start) / (end - start);
        }

        double offset = BesselOffset(section, length, start, end);
        return length + offset - (offset * Math.Pow(radius / end, -1 / section.FlareExponent));
    }

    private static double BesselOffset(BoreSection section, double length, double start, double end) =>
        length / (Math.Pow(end / start, 1 / section.FlareExponent) - 1);
}
