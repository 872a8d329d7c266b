using BrassVox.Analysis.Sensation;
using BrassVox.Analysis.Transforms;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Fast sums against the same sums written out. Source: the definitions, in each test.</summary>
public sealed class TransformsTests
{
    private static double[] Random(int count, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, count).Select(_ => random.NextDouble() - 0.5)];
    }

    // c(j) = sum of a(n) b(n - j).
    [Theory]
    [InlineData(100, 100, 7)]
    [InlineData(500, 40, 16)]
    [InlineData(40, 500, 16)]
    [InlineData(65, 65, 1)]
    public void Lags_are_sums_of_products(int lengthA, int lengthB, int count)
    {
        double[] a = Random(lengthA, 1);
        double[] b = Random(lengthB, 2);
        double[] lags = Lags.Of(a, b, count);
        Assert.Equal(count, lags.Length);
        for (int j = 0; j < count; j++)
        {
            double sum = 0;
            for (int n = j; n < a.Length && n - j < b.Length; n++)
            {
                sum += a[n] * b[n - j];
            }

            Assert.Equal(sum, lags[j], 1e-9);
        }
    }

    // y(n) = sum of h(k) x(n - k).
    [Fact]
    public void A_filter_is_the_sum_of_its_coefficients_times_what_went_before()
    {
        double[] h = Random(13, 3);
        double[] x = Random(100, 4);
        double[] expected = [.. Enumerable.Range(0, x.Length).Select(n => Enumerable.Range(0, Math.Min(h.Length, n + 1)).Sum(k => h[k] * x[n - k]))];
        double[] whole = FirFilter.Whole(h, x);
        Assert.Equal(expected.Length, whole.Length);
        Assert.All(expected.Zip(whole), pair => Assert.Equal(pair.First, pair.Second, 1e-12));

        // Block by block, and once more from rest.
        var filter = new FirFilter(h, 20);
        for (int round = 0; round < 2; round++)
        {
            for (int start = 0; start < 100; start += 20)
            {
                double[] block = new double[20];
                filter.Run(x.AsSpan(start, 20), block);
                Assert.All(expected.Skip(start).Take(20).Zip(block), pair => Assert.Equal(pair.First, pair.Second, 1e-12));
            }

            filter.Reset();
        }
    }

    // R h = p with R(i, j) = r(|i - j|), and the ridge's share of r(0) more on the diagonal.
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.5)]
    public void A_toeplitz_system_is_solved(double ridge)
    {
        double[] r = [4, 1.5, -0.7, 0.3, 0.2];
        double[] h = [1, -2, 0.5, 3, -1];
        double[] p = [.. Enumerable.Range(0, 5).Select(i => Enumerable.Range(0, 5).Sum(j => (r[Math.Abs(i - j)] + (i == j ? ridge * r[0] : 0)) * h[j]))];
        double[] solved = new ToeplitzSystem(r, ridge).Solve(p, 20);
        Assert.All(h.Zip(solved), pair => Assert.Equal(pair.First, pair.Second, 1e-8));

        // One step of conjugate gradients from rest: p (p.p) / (p.R p).
        double square = p.Sum(value => value * value);
        double over = Enumerable.Range(0, 5).Sum(i => Enumerable.Range(0, 5).Sum(j => p[i] * (r[Math.Abs(i - j)] + (i == j ? ridge * r[0] : 0)) * p[j]));
        Assert.All(p.Zip(new ToeplitzSystem(r, ridge).Solve(p, 1)), pair => Assert.Equal(pair.First * square / over, pair.Second, 1e-9));
        Assert.All(new ToeplitzSystem(r, ridge).Solve(new double[5], 20), value => Assert.Equal(0, value));
    }

    [Theory]
    [InlineData(-1, 10)]
    [InlineData(0, 10)]
    [InlineData(1, 15)]
    [InlineData(2, 20)]
    [InlineData(3, 10)]
    [InlineData(4, 0)]
    [InlineData(9, 0)]
    public void A_broken_line_is_straight_between_its_points_and_level_beyond(double x, double y) =>
        Assert.Equal(y, new BrokenLine((0, 10), (2, 20), (4, 0)).At(x), 12);

    // y(n) = b0 x(n) + b1 x(n-1) + b2 x(n-2) - a1 y(n-1) - a2 y(n-2).
    [Fact]
    public void A_second_order_filter_is_its_difference_equation()
    {
        var filter = new Biquad(0.3, -0.2, 0.1, -0.5, 0.25);
        double[] x = Random(50, 5);
        double[] y = [.. x];
        filter.Run(y);
        double At(double[] values, int n) => n < 0 ? 0 : values[n];
        for (int n = 0; n < x.Length; n++)
        {
            Assert.Equal((0.3 * x[n]) - (0.2 * At(x, n - 1)) + (0.1 * At(x, n - 2)) + (0.5 * At(y, n - 1)) - (0.25 * At(y, n - 2)), y[n], 1e-12);
        }
    }

    // The bilinear transform: z = exp(i w / rate) stands for s = 2 rate (z - 1) / (z + 1); the same s at two rates has the same gain.
    [Fact]
    public void A_filter_carried_to_another_rate_does_the_same_to_the_same_analogue_frequency()
    {
        var filter = new Biquad(0.3, -0.2, 0.1, -0.5, 0.25);
        Biquad carried = filter.CarriedTo(1000, 1500);
        static System.Numerics.Complex Gain(Biquad f, System.Numerics.Complex z) => (f.B0 + (f.B1 / z) + (f.B2 / (z * z))) / (1 + (f.A1 / z) + (f.A2 / (z * z)));
        foreach (double s in (double[])[0, 200, 900, 4000])
        {
            static System.Numerics.Complex Z(double s, double rate) => (1 + new System.Numerics.Complex(0, s / (2 * rate))) / (1 - new System.Numerics.Complex(0, s / (2 * rate)));
            Assert.Equal(0, (Gain(filter, Z(s, 1000)) - Gain(carried, Z(s, 1500))).Magnitude, 1e-12);
        }
    }

    /// <summary>A sine of amplitude 1 reads 0 dB at its frequency, half of it -6.02; columns lie a hop apart, the first half a window in.</summary>
    [Fact]
    public void A_spectrogram_reads_a_sine_at_its_place_and_level()
    {
        const int rate = 8_000;
        float[] sound = [.. Enumerable.Range(0, rate).Select(n => (float)((n < rate / 2 ? 1 : 0.5) * Math.Cos(2 * Math.PI * 1000 * n / rate)))];
        Spectrogram picture = Spectrogram.Of(sound, rate, 0.064, 0.02, 2000);

        // Windows of 512 samples in 1024 points: 7.8125 Hz a bin, 1000 Hz in bin 128; 2000 Hz in bin 256 is the last.
        Assert.Equal((8000.0 / 1024, 0.02, 0.032), (picture.BinHz, picture.HopSeconds, picture.FirstSeconds));
        Assert.Equal((257, ((8000 - 512) / 160) + 1), (picture.Bins, picture.Columns));
        Assert.Equal(0, picture.LevelDb(0, 128), 0.01);
        Assert.Equal(-6.02, picture.LevelDb(picture.Columns - 1, 128), 0.01);
        Assert.InRange(picture.LevelDb(0, 64), -200, -80);
        Assert.Equal(-200, Spectrogram.Of(new float[rate], rate, 0.064, 0.02, 2000).LevelDb(0, 0));
        Assert.Equal(-200, Spectrogram.Of([.. Enumerable.Repeat(float.NaN, 600)], rate, 0.064, 0.02, 2000).LevelDb(0, 0));

        // No more bins than half the rate has; never fewer samples than 32, which are enough.
        Assert.Equal(512, Spectrogram.Of(sound, rate, 0.064, 0.02, 9000).Bins);
        Assert.Equal(1, Spectrogram.Of(new float[32], rate, 0.001, 0.02, 2000).Columns);
        Assert.Contains("needs 32 samples, not 31", Assert.Throws<ArgumentException>(() => Spectrogram.Of(new float[31], rate, 0.001, 0.02, 2000)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Spectrogram.Of(sound, 0, 0.064, 0.02, 2000));
        Assert.Throws<ArgumentOutOfRangeException>(() => Spectrogram.Of(sound, rate, 0, 0.02, 2000));
        Assert.Throws<ArgumentOutOfRangeException>(() => Spectrogram.Of(sound, rate, 0.064, 0, 2000));
        Assert.Throws<ArgumentOutOfRangeException>(() => Spectrogram.Of(sound, rate, 0.064, 0.02, 0));
    }

    /// <summary>What lies in the middle of a window counts, what lies at its ends hardly; the phase makes no difference.</summary>
    [Fact]
    public void A_spectrogram_weighs_the_middle_of_its_window()
    {
        const int rate = 8_000;
        static float[] Sound(Func<int, bool> sounds, double phase) => [.. Enumerable.Range(0, 512).Select(n => sounds(n) ? (float)Math.Cos((2 * Math.PI * 1000 * n / rate) + phase) : 0f)];
        double Level(Func<int, bool> sounds, double phase = 0) => Spectrogram.Of(Sound(sounds, phase), rate, 0.064, 0.02, 2000).LevelDb(0, 128);

        // Of a raised cosine the middle half holds 0.5 + 1 / pi, the two outer quarters the rest.
        Assert.Equal(20 * Math.Log10(0.5 + (1 / Math.PI)), Level(n => n is >= 128 and < 384), 0.05);
        Assert.Equal(20 * Math.Log10(0.5 - (1 / Math.PI)), Level(n => n is < 128 or >= 384), 0.2);
        foreach (double phase in (double[])[0.8, 1.57, 3])
        {
            Assert.Equal(0, Level(_ => true, phase), 0.01);
        }
    }

    [Fact]
    public void A_transform_takes_as_many_points_as_it_was_made_for()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new FourierPlan(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => FourierPlan.FastLength(0));
        var plan = new FourierPlan(8);
        Assert.Contains("has 8 points; 7 and 8 were given", Assert.Throws<ArgumentException>(() => plan.Forward(new double[7], new double[8])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => plan.Forward(new double[8], new double[9]));
    }
}
