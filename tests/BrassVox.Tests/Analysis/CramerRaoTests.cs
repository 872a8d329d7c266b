using BrassVox.Analysis.Bounds;
using MathNet.Numerics.LinearAlgebra;
using Xunit;

namespace BrassVox.Tests.Analysis;

public sealed class CramerRaoTests
{
    // Source: Rife and Boorstyn 1974, formula worked by another program (48 kHz, 20 dB).
    [Theory]
    [InlineData(2_400, 0.022508)]
    [InlineData(4_800, 0.0079577)]
    [InlineData(9_600, 0.0028135)]
    [InlineData(48_000, 0.00025165)]
    public void One_sinusoid(int samples, double hz) =>
        Assert.Equal(hz, CramerRao.SinusoidHz(48_000, samples, 20), 1e-6);

    // Source: the same formula; two far lines do not disturb one another.
    [Fact]
    public void Two_far_lines_are_bounded_as_one_is()
    {
        PairBound bound = CramerRao.PairHz(Line(400, 1, 0.3), Line(1700, 0.5, 1.1), 0.1, 8_000, 800);
        double loud = CramerRao.SinusoidHz(8_000, 800, 10 * Math.Log10(0.5 / 0.01));
        Assert.Equal(loud, bound.PlayedHz, 0.01 * loud);
        Assert.Equal(2 * loud, bound.SungHz, 0.02 * loud);
    }

    // Source: bound for a harmonic tone, Christensen and Jakobsson 2009: the k-th harmonic counts k^2 times (from memory).
    [Fact]
    public void Harmonics_sharpen_the_bound_by_the_square_of_their_number()
    {
        var tone = new HarmonicTone(116.54, [1, 0.5, 0.25], [0.1, 2, 1]);
        PairBound bound = CramerRao.PairHz(tone, Line(1900, 1, 0), 0.1, 8_000, 1_280);
        double weighted = 0.5 * (1 + (4 * 0.25) + (9 * 0.0625));
        double expected = CramerRao.SinusoidHz(8_000, 1_280, 10 * Math.Log10(weighted / 0.01));
        Assert.Equal(expected, bound.PlayedHz, 0.02 * expected);
    }

    // Source: two close lines, the bound grows as their distance to the power -2 to -4, as their phases lie (Dilaveroglu).
    [Theory]
    [InlineData(0)]
    [InlineData(0.7)]
    [InlineData(1.5707963)]
    public void Close_lines_are_bounded_ever_more_weakly(double phase)
    {
        double At(double apartHz) => CramerRao.PairHz(Line(400, 1, 0), Line(400 + apartHz, 1, phase), 0.1, 8_000, 800).PlayedHz;
        Assert.InRange(At(1) / At(2), 1.9, 16);
        Assert.InRange(At(0.5) / At(1), 1.9, 16);
        Assert.Equal(double.PositiveInfinity, At(0));
    }

    [Fact]
    public void Exactly_in_tune_the_bound_is_that_of_a_pair_ever_so_little_out()
    {
        var played = new HarmonicTone(100, [1, 1, 1, 1], [0, 1, 2, 3]);
        PairBound At(double hz) => CramerRao.PairHz(played, new HarmonicTone(hz, [1, 1], [1, 2.5]), 0.1, 8_000, 1_280);

        Assert.Equal(double.PositiveInfinity, At(100).SungHz);
        Assert.Equal(double.PositiveInfinity, At(200).SungHz);
        Assert.True(double.IsFinite(At(200).PlayedHz));
        Assert.Equal(At(150.01).SungHz, At(150).SungHz, 0.01 * At(150.01).SungHz);
        Assert.Equal(At(150.01).PlayedHz, At(150).PlayedHz, 0.01 * At(150.01).PlayedHz);
    }

    // Source: Fisher's information of sampled cosines in white noise, J'J / variance, by both fundamentals and all amplitudes and phases; inverted by
    // MathNet.Numerics, a general-purpose library.
    [Theory]
    [InlineData(400, 406, 0.0, 80)]
    [InlineData(400, 406, 0.7, 80)]
    [InlineData(400, 411, 2.0, 80)]
    [InlineData(100, 153, 0.7, 160)]
    [InlineData(153, 100, 1.9, 160)]
    [InlineData(1_500, 403, 0.7, 81)]
    public void Two_tones_are_bounded_by_the_inverse_of_their_information(double playedHz, double sungHz, double phase, int samples)
    {
        const double rate = 4_000, rms = 0.05;
        HarmonicTone[] tones = [new(playedHz, [1, 0.5, 0.3], [phase, 1, -2]), new(sungHz, [0.4, 0.6], [0.3, phase])];
        List<Vector<double>> columns = [];
        List<int> pitches = [];
        foreach (HarmonicTone tone in tones)
        {
            Vector<double> byPitch = Vector<double>.Build.Dense(samples);
            for (int k = 1; k <= tone.Amplitudes.Count && k * tone.FundamentalHz < rate / 2; k++)
            {
                double[] times = [.. Enumerable.Range(0, samples).Select(n => (n - ((samples - 1) / 2.0)) / rate)];
                double At(double t, double moreHz, double morePhase) => tone.Amplitudes[k - 1] * Math.Cos((2 * Math.PI * k * (tone.FundamentalHz + moreHz) * t) + tone.PhasesRadians[k - 1] + morePhase);
                byPitch += Vector<double>.Build.Dense([.. times.Select(t => (At(t, 1e-4, 0) - At(t, -1e-4, 0)) / 2e-4)]);
                columns.Add(Vector<double>.Build.Dense([.. times.Select(t => At(t, 0, 0))]));
                columns.Add(Vector<double>.Build.Dense([.. times.Select(t => At(t, 0, Math.PI / 2))]));
            }

            pitches.Add(columns.Count);
            columns.Add(byPitch);
        }

        Matrix<double> jacobian = Matrix<double>.Build.DenseOfColumnVectors(columns);
        Matrix<double> covariance = (jacobian.TransposeThisAndMultiply(jacobian) / (rms * rms)).Inverse();
        PairBound bound = CramerRao.PairHz(tones[0], tones[1], rms, rate, samples);
        Assert.Equal(1, Math.Sqrt(covariance[pitches[0], pitches[0]]) / bound.PlayedHz, 1e-3);
        Assert.Equal(1, Math.Sqrt(covariance[pitches[1], pitches[1]]) / bound.SungHz, 1e-3);
    }

    [Fact]
    public void Numbers_have_ranges()
    {
        HarmonicTone tone = new(100, [1, 0.5], [0, 0]);
        Assert.Equal(0.625, tone.Power);
        Assert.Throws<ArgumentOutOfRangeException>(() => CramerRao.SinusoidHz(0, 100, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => CramerRao.SinusoidHz(8_000, 1, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => CramerRao.PairHz(tone, tone, 0, 8_000, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => CramerRao.PairHz(tone, tone, 1, 0, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => CramerRao.PairHz(tone, tone, 1, 8_000, 1));

        // Of two samples: 12 / (2 (4 - 1)) = 2.
        Assert.Equal(8_000 / (2 * Math.PI) * Math.Sqrt(2), CramerRao.SinusoidHz(8_000, 2, 0), 1e-9);
    }

    private static HarmonicTone Line(double hz, double amplitude, double phase) => new(hz, [amplitude], [phase]);
}
