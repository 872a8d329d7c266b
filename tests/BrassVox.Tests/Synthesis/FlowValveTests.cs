using BrassVox.Synthesis;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>The flow valve against its closed form: opening a(t) times the square root of 1 + m cos.</summary>
public sealed class FlowValveTests
{
    // Cosine series of sqrt(1 + m cos), evaluated apart from this program (SciPy quadrature).
    [Theory]
    [InlineData(0.1, 0.999374, 0.050047, -0.000627)]
    [InlineData(0.2, 0.997476, 0.100381, -0.002532)]
    [InlineData(0.3, 0.994251, 0.151309, -0.005791)]
    [InlineData(0.5, 0.983343, 0.256475, -0.017023)]
    public void The_root_has_the_known_series(double m, double mean, double first, double second)
    {
        (double b0, float[] real, float[] imaginary) = Root(m);
        Assert.Equal(mean, b0, 2e-6);
        Assert.Equal(first, real[0], 2e-6);
        Assert.Equal(second, real[1], 2e-6);
        Assert.Equal(0, imaginary[0], 1e-6);
    }

    // Lips closed half of each cycle (A. Tarnopolsky and others, JASA 119, 2006): a = 1/pi, 1/2, 2/(3 pi), 0, -2/(15 pi) ...; m = 0.3. Levels re the line P follow from the two series.
    [Fact]
    public void A_half_closed_lip_gives_the_lines_of_the_closed_form()
    {
        const double Rate = 48000;
        const double Played = 58.27;
        const double Sung = 92.8;
        PartialBank opening = new(24);
        opening.RealTarget[0] = 0.5f;
        for (int k = 2; k <= 24; k += 2)
        {
            opening.RealTarget[k - 1] = (float)(2 / (Math.PI * (1 - ((double)k * k))) * (k % 4 == 0 ? 1 : -1));
        }

        opening.Aim(24, 0);
        PartialBank root = new(VoiceTone.MostMouthPartials);
        (double rootMean, float[] rootReal, float[] rootImaginary) = Root(0.3);
        rootReal.CopyTo(root.RealTarget);
        rootImaginary.CopyTo(root.ImaginaryTarget);
        root.Aim(rootReal.Length, 0);
        PhaseTrack played = default, sung = default;
        float[] zr = new float[64], zi = new float[64], wr = new float[64], wi = new float[64], a = new float[64], b = new float[64];
        float[] flow = new float[8 * (int)Rate];
        for (int at = 0; at < flow.Length; at += 64)
        {
            played.Fill(Played / Rate, Played / Rate, 64, zr, zi);
            sung.Fill(Sung / Rate, Sung / Rate, 64, wr, wi);
            opening.Render(zr, zi, a, 64);
            root.Render(wr, wi, b, 64);
            for (int i = 0; i < 64; i++)
            {
                flow[at + i] = (float)(((1 / Math.PI) + a[i]) * (rootMean + b[i]));
            }
        }

        double reference = Spectrum.LevelDb(flow, (int)Rate, Played);
        Assert.Equal(-7.44, Level(2, 0), 0.1);
        Assert.Equal(-20.28, Level(0, 1), 0.1);
        Assert.Equal(-22.37, Level(-1, 1), 0.1);
        Assert.Equal(-22.37, Level(1, 1), 0.1);
        Assert.Equal(-29.82, Level(2, 1), 0.1);
        Assert.Equal(-29.82, Level(2, -1), 0.1);
        Assert.Equal(-50.72, Level(1, 2), 0.1);
        Assert.Equal(-50.72, Level(-1, 2), 0.1);

        double Level(int m, int n) => Spectrum.LevelDb(flow, (int)Rate, (m * Played) + (n * Sung)) - reference;
    }

    // The mean that belongs to such a lip follows from its alternating part.
    [Fact]
    public void The_mean_opening_is_that_of_a_half_closed_lip()
    {
        double square = 0.25;
        for (int k = 2; k < 2000; k += 2)
        {
            double amplitude = 2 / (Math.PI * (((double)k * k) - 1));
            square += amplitude * amplitude;
        }

        Assert.Equal(1 / Math.PI, FlowValve.MeanOverAlternating * Math.Sqrt(square / 2), 1e-5);
    }

    // A bell that rises by 6 dB an octave below its corner: a sum tone two octaves and a third above the difference tone comes out 6 to 14 dB stronger, as players report that sums outweigh differences.
    [Theory]
    [InlineData("tuba", "bass", 58.2705, 92.8)]
    [InlineData("trombone", "tenor", 116.5409, 180.3)]
    [InlineData("horn", "alto", 174.6141, 271.1)]
    public void The_sum_outweighs_the_difference(string brass, string voice, double playedHz, double sungHz)
    {
        float[] sound = TakenSound.Pair(brass, voice, playedHz, sungHz, ("couplingDepth", 0.6)).Take(4.5);
        double lead = sound.LevelDb(0.3, 4, sungHz + playedHz) - sound.LevelDb(0.3, 4, sungHz - playedHz);
        Assert.InRange(lead, 6, 6.03 * Math.Log2((sungHz + playedHz) / (sungHz - playedHz)));
    }

    private static (double Mean, float[] Real, float[] Imaginary) Root(double m)
    {
        float[] real = new float[VoiceTone.MostMouthPartials];
        float[] imaginary = new float[VoiceTone.MostMouthPartials];
        real[0] = 1;
        double mean = new FlowValve().Apply(m, real.Length, real, imaginary);
        return (mean, real, imaginary);
    }
}
