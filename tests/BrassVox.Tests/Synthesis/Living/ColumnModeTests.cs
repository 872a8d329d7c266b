using System.Numerics;
using BrassVox.Synthesis.Living;
using Xunit;

namespace BrassVox.Tests.Synthesis.Living;

/// <summary>Modes of the column: one mode exactly, and all of them against the transfer matrices they come from.</summary>
public sealed class ColumnModeTests
{
    public static TheoryData<string> Ids() => [.. SourceUnderTest.Bores.Keys];

    // p'' + (w/Q) p' + w^2 p = Z (w/Q) u': gain Z at w, -3 dB width w / Q, exactly.
    [Theory]
    [InlineData(116.5, 25, 3e7)]
    [InlineData(40, 5, 1e6)]
    public void A_single_mode_has_its_peak_and_width_exactly(double hz, double q, double peak)
    {
        ColumnMode mode = ColumnMode.FromPeak(hz, q, peak);
        Assert.Equal(hz, mode.FrequencyHz, hz * 1e-12);
        Assert.Equal(q, mode.Q, q * 1e-12);
        Complex top = ColumnMode.Impedance([mode], hz);
        Assert.Equal(peak, top.Real, peak * 1e-9);
        Assert.Equal(0, top.Imaginary / peak, 1e-9);
        double root = Math.Sqrt(1 + (1 / (4 * q * q)));
        double low = hz * (root - (1 / (2 * q)));
        double high = hz * (root + (1 / (2 * q)));
        Assert.Equal(hz / q, high - low, hz * 1e-12);
        Assert.Equal(peak / Math.Sqrt(2), ColumnMode.Impedance([mode], low).Magnitude, peak * 1e-9);
        Assert.Equal(peak / Math.Sqrt(2), ColumnMode.Impedance([mode], high).Magnitude, peak * 1e-9);
    }

    // The running filter answers a sine like the closed form, but for the straight lines between its steps.
    [Fact]
    public void The_running_column_answers_a_sine_as_the_closed_form_says()
    {
        const double Rate = 96000;
        ColumnMode[] modes = [ColumnMode.FromPeak(116.5, 25, 3e7), ColumnMode.FromPeak(175, 30, 2.5e7), ColumnMode.FromPeak(233, 35, 3.5e7)];
        foreach (double hz in (ReadOnlySpan<double>)[116.5, 140, 233])
        {
            var column = new AirColumn(modes, Rate);
            double turn = 2 * Math.PI * hz / Rate;
            Complex sum = Complex.Zero;
            int periods = (int)(0.5 * hz);
            int from = (int)(1.5 * Rate);
            int count = (int)(periods * Rate / hz);
            double last = 0;
            for (int i = 0; i < from + count; i++)
            {
                column.Step(last, out double history, out _);
                double flow = Math.Cos(turn * i);
                double pressure = history + (column.Prompt * flow);
                last = flow;
                sum += i >= from ? pressure * Complex.FromPolarCoordinates(2.0 / count, -turn * i) : Complex.Zero;
            }

            Complex expected = ColumnMode.Impedance(modes, hz);
            Assert.True((sum - expected).Magnitude < 0.003 * expected.Magnitude, $"{hz} Hz: {sum} instead of {expected}");
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_modes_give_the_impedance_of_the_transfer_matrices(string id)
    {
        BrassBore preset = SourceUnderTest.Bores[id];
        var bore = new Bore(preset.Sections, preset.Air);
        ColumnMode[] modes = SourceUnderTest.ModesOf(id);
        Assert.All(modes, mode => Assert.True(mode.Pole.Real < 0));
        (double error, double total, double outsideError, double outside) = (0, 0, 0, 0);
        for (double hz = 0.6 * preset.NominalHz; hz < 12 * preset.NominalHz; hz += preset.NominalHz / 9)
        {
            (Complex pressure, Complex flow) = bore.AtPlayer(new Complex(0, 2 * Math.PI * hz));
            Complex impedance = pressure / flow;
            Complex transfer = new Complex(0, 2 * Math.PI * hz) * preset.Air.Density / (4 * Math.PI) / flow;
            error += Square(ColumnMode.Impedance(modes, hz) - impedance);
            total += Square(impedance);
            outsideError += Square(ColumnMode.Transfer(modes, hz) - transfer);
            outside += Square(transfer);
        }

        Assert.True(Math.Sqrt(error / total) < 0.01, $"impedance off by {Math.Sqrt(error / total):P2}");
        Assert.True(Math.Sqrt(outsideError / outside) < 0.02, $"transfer off by {Math.Sqrt(outsideError / outside):P2}");
    }

    // Resonances 2 to 8 of a brass instrument lie close to the harmonic row (common practice, no source: within a quarter tone).
    [Theory]
    [MemberData(nameof(Ids))]
    public void Resonances_lie_near_the_harmonic_row(string id)
    {
        BrassBore preset = SourceUnderTest.Bores[id];
        List<double> peaks = ColumnModes.Peaks(new Bore(preset.Sections, preset.Air), preset.NominalHz, 8);
        for (int n = 2; n <= 8; n++)
        {
            Assert.InRange(1200 * Math.Log2(peaks[n - 1] / (n * preset.NominalHz)), -25, 25);
        }
    }

    // The lowest resonance of a trombone lies off the row, near 38 Hz, well below the pedal (Campbell and Greated; Fletcher and Rossing, from memory).
    [Fact]
    public void The_first_resonance_of_the_trombone_lies_far_below_its_pedal()
    {
        BrassBore preset = SourceUnderTest.Bores["trombone"];
        Assert.InRange(ColumnModes.Peaks(new Bore(preset.Sections, preset.Air), preset.NominalHz, 1)[0], 36, 42);
    }

    private static double Square(Complex value) => (value.Real * value.Real) + (value.Imaginary * value.Imaginary);
}
