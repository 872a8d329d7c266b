using System.Numerics;
using BrassVox.Synthesis;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>The LF model against its printed table.</summary>
public sealed class GlottalPulseTests
{
    // G. Fant, The voice source in connected speech (1997), table of Rd, Ra, Rk, Rg (percent) and, from them, Oq. The printed Ra at Rd 0.5 contradicts its own formula and is taken from the formula.
    [Theory]
    [InlineData(0.3, 0.44, 25.94, 178.766, 35.225)]
    [InlineData(0.5, 1.40, 28.30, 137.359, 46.702)]
    [InlineData(0.7, 2.36, 30.66, 117.710, 55.501)]
    [InlineData(1.0, 3.80, 34.20, 103.228, 65.001)]
    [InlineData(1.4, 5.72, 38.92, 95.347, 72.850)]
    [InlineData(2.0, 8.60, 46.00, 93.401, 78.158)]
    [InlineData(2.7, 11.96, 54.26, 98.006, 78.699)]
    public void Rd_predicts_the_printed_parameters(double rd, double ra, double rk, double rg, double oq)
    {
        GlottalPulse pulse = new(rd);
        Assert.Equal(ra, 100 * pulse.Ra, 0.005);
        Assert.Equal(rk, 100 * pulse.Rk, 0.005);
        Assert.Equal(rg, 100 * pulse.Rg, 0.0006);
        Assert.Equal(oq, 100 * pulse.ExcitationAt, 0.0006);
    }

    // The model's conditions solved apart from this program (double precision, SciPy) for period and negative peak of 1.
    [Theory]
    [InlineData(0.5, 0.36401, 0.46702, 0.014, 71.4286, 6.0890, 0.07497)]
    [InlineData(1.0, 0.48436, 0.65001, 0.038, 26.3132, 2.8065, 0.18348)]
    [InlineData(2.0, 0.53533, 0.78158, 0.086, 10.4386, 0.9803, 0.46848)]
    public void The_solved_pulse_has_the_known_constants(double rd, double peakAt, double excitationAt, double returnTime, double rate, double growth, double scale)
    {
        GlottalPulse pulse = new(rd);
        Assert.Equal(peakAt, pulse.PeakAt, 1e-5);
        Assert.Equal(excitationAt, pulse.ExcitationAt, 1e-5);
        Assert.Equal(returnTime, pulse.ReturnTime, 1e-5);
        Assert.Equal(rate, pulse.ReturnRate, 1e-3);
        Assert.Equal(growth, pulse.Growth, 1e-3);
        Assert.Equal(scale, pulse.OpeningScale, 1e-4);
    }

    // G. Fant, J. Liljencrants, Q. Lin (1985): the period's net area is zero and its negative peak is Ee.
    [Fact]
    public void Every_pulse_has_no_net_area_and_meets_its_peak()
    {
        for (double rd = 0.3; rd <= 2.7; rd += 0.1)
        {
            GlottalPulse pulse = new(Math.Min(rd, 2.7));
            const int Steps = 200000;
            double area = 0;
            for (int i = 0; i < Steps; i++)
            {
                area += pulse.At((i + 0.5) / Steps) / Steps;
            }

            Assert.Equal(0, area, 2e-6);
            Assert.Equal(-1, pulse.At(pulse.ExcitationAt), 1e-12);
            Assert.Equal(pulse.Rd, GlottalPulse.RdFrom(pulse.Ra, pulse.Rk, pulse.Rg), 1e-9);
        }
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(1.3)]
    [InlineData(2.7)]
    public void Closed_form_harmonics_are_the_fourier_series_of_the_pulse(double rd)
    {
        GlottalPulse pulse = new(rd);
        const int Points = 1 << 16;
        foreach (int n in (int[])[1, 2, 7, 40])
        {
            Complex sum = Complex.Zero;
            for (int i = 0; i < Points; i++)
            {
                double t = (i + 0.5) / Points;
                sum += pulse.At(t) * Complex.Exp(new Complex(0, -2 * Math.PI * n * t));
            }

            Assert.Equal(0, (pulse.Harmonic(n) - (sum * 2 / Points)).Magnitude, 2e-5);
        }
    }
}
