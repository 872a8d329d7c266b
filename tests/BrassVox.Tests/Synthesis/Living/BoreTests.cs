using System.Numerics;
using BrassVox.Synthesis.Living;
using Xunit;

namespace BrassVox.Tests.Synthesis.Living;

/// <summary>The acoustics of bores against closed forms.</summary>
public sealed class BoreTests
{
    private static readonly Air Air = new(20);

    // Closed-open cylinder: (2n - 1) c / (4 L). Source: any acoustics textbook; Fletcher and Rossing, section 8.2.
    [Fact]
    public void A_cylinder_shut_at_the_lips_resonates_at_odd_quarter_waves()
    {
        const double Length = 2.945;
        var bore = new Bore([Cylinder(Length, 7)], Air, ideal: true);
        for (int n = 1; n <= 5; n++)
        {
            double expected = ((2 * n) - 1) * Air.SpeedOfSound / (4 * Length);
            Assert.Equal(expected, Resonance(bore, expected), expected * 1e-6);
        }
    }

    // Complete cone: n c / (2 L). A cone with a tip of radius r0 shut by the lips: tan(k L) = -k x0, x0 the missing length (Fletcher and Rossing, section 8.7, from memory).
    [Fact]
    public void A_cone_shut_at_its_tip_resonates_at_half_waves()
    {
        const double Length = 2.945;
        const double TipMm = 0.3;
        const double EndMm = 60;
        var bore = new Bore([new BoreSection(BoreShape.Cone, Length * 1000, TipMm, EndMm, 0)], Air, ideal: true);
        double missing = Length * TipMm / (EndMm - TipMm);
        for (int n = 1; n <= 5; n++)
        {
            double complete = n * Air.SpeedOfSound / (2 * (Length + missing));
            double found = Resonance(bore, complete);
            Assert.Equal(complete, found, complete * 2e-3);
            double k = 2 * Math.PI * found / Air.SpeedOfSound;
            Assert.Equal(0, Math.Sin(k * Length) + (k * missing * Math.Cos(k * Length)), 0.006 * n);
        }
    }

    // Speed of sound at 20 degrees: 343.370 m/s (Chaigne and Kergomard's constants).
    [Fact]
    public void Sound_travels_at_343_37_metres_a_second_at_20_degrees() => Assert.Equal(343.370, Air.SpeedOfSound, 1e-3);

    // End correction of an unflanged pipe: 0.6133 radii (Levine and Schwinger 1948).
    [Fact]
    public void An_open_end_makes_the_tube_0_613_radii_longer()
    {
        const double Radius = 0.05;
        var open = new Bore([Cylinder(3, Radius * 1000)], Air);
        double lossless = Air.SpeedOfSound / (4 * (3 + (0.6133 * Radius)));

        // Wall losses lower the pitch by about half the relative width of the resonance; both are small here.
        double found = Resonance(open, lossless);
        double width = Width(open, found);
        double withoutLosses = found + (0.5 * width);
        Assert.Equal(lossless, withoutLosses, lossless * 5e-4);
    }

    // Wall losses: attenuation about 1.2e-5 sqrt(omega) / radius per metre (Fletcher and Rossing, equation 8.15, from memory), so Q = omega / (2 c alpha).
    [Fact]
    public void Wall_losses_give_the_textbook_width_of_resonance()
    {
        const double Radius = 0.007;
        var bore = new Bore([Cylinder(1.5, Radius * 1000)], Air);
        double hz = Resonance(bore, 5 * Air.SpeedOfSound / 6.02);
        double omega = 2 * Math.PI * hz;
        double alpha = 1.2e-5 * Math.Sqrt(omega) / Radius;
        Assert.Equal(omega / (2 * Air.SpeedOfSound * alpha), hz / Width(bore, hz), 0.1 * hz / Width(bore, hz));
    }

    [Fact]
    public void Bores_give_back_less_than_they_take()
    {
        foreach (BrassBore preset in SourceUnderTest.Bores.Values)
        {
            var bore = new Bore(preset.Sections, preset.Air);
            for (double hz = 20; hz < 3000; hz *= 1.031)
            {
                Assert.True(bore.InputImpedance(hz).Real > 0, $"{preset.Id} at {hz} Hz");
            }
        }
    }

    // J1(z)/J0(z): on the real axis the printed Bessel functions J0(2) = 0.2238907791, J1(2) = 0.5767248078 (Abramowitz and Stegun, table 9.1).
    [Fact]
    public void The_wall_layer_agrees_with_printed_bessel_functions()
    {
        Complex ratio = WallLoss.Ratio(new Complex(2, 0));
        Assert.Equal(0.5767248078 / 0.2238907791, ratio.Real, 1e-8);

        // The two branches meet: a step of the argument across their border changes the ratio smoothly.
        Complex direction = Complex.FromPolarCoordinates(1, -Math.PI / 4);
        Complex below = WallLoss.Ratio(13.999 * direction);
        Complex above = WallLoss.Ratio(14.001 * direction);
        Assert.True((below - above).Magnitude < 2e-5, $"{below} {above}");
    }

    private static BoreSection Cylinder(double lengthM, double radiusMm) => new(BoreShape.Cylinder, lengthM * 1000, radiusMm, radiusMm, 0);

    // Peak of the magnitude near a guess, by golden-section search within 3 %.
    private static double Resonance(Bore bore, double guess)
    {
        double low = guess * 0.97;
        double high = guess * 1.03;
        double part = (Math.Sqrt(5) - 1) / 2;
        while (high - low > 1e-9 * guess)
        {
            double a = high - (part * (high - low));
            double b = low + (part * (high - low));
            (low, high) = 1 / bore.InputImpedance(a).Magnitude < 1 / bore.InputImpedance(b).Magnitude ? (low, b) : (a, high);
        }

        return 0.5 * (low + high);
    }

    private static double Width(Bore bore, double peakHz)
    {
        double level = bore.InputImpedance(peakHz).Magnitude / Math.Sqrt(2);
        return Side(+1) + Side(-1);

        double Side(int sign)
        {
            double inside = 0;
            double outside = 0.1 * peakHz;
            for (int i = 0; i < 60; i++)
            {
                double middle = 0.5 * (inside + outside);
                (inside, outside) = bore.InputImpedance(peakHz + (sign * middle)).Magnitude > level ? (middle, outside) : (inside, middle);
            }

            return inside;
        }
    }
}
