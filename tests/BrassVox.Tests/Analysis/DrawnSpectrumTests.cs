using BrassVox.Analysis.Tracking;
using MathNet.Numerics.LinearAlgebra;
using Xunit;
using Complex = System.Numerics.Complex;

namespace BrassVox.Tests.Analysis;

/// <summary>The tracker's transforms, windows and line fits against the same sums written out. Source: the definitions, in each test; linear algebra by MathNet.Numerics, a general-purpose library.</summary>
public sealed class DrawnSpectrumTests
{
    private const double RateHz = 6_000;
    private const int Length = 959;
    private const double UnitHz = RateHz / Length;

    private static float[] Window(params (double Hz, double Amplitude, double Phase)[] lines) =>
        [.. Enumerable.Range(0, Length).Select(n => (float)lines.Sum(line => line.Amplitude * Math.Cos((2 * Math.PI * line.Hz * (n - (Length / 2)) / RateHz) + line.Phase)))];

    private static WindowSpectrum Spectrum(params (double Hz, double Amplitude, double Phase)[] lines)
    {
        WindowSpectrum spectrum = new(Length, RateHz, Decimator.BandTopHz);
        spectrum.Take(Window(lines));
        return spectrum;
    }

    // X(k) = sum of x(n) exp(-2 pi i k n / N).
    [Theory]
    [InlineData(32)]
    [InlineData(64)]
    [InlineData(512)]
    public void A_real_transform_is_its_definition(int size)
    {
        var random = new Random(size);
        float[] x = [.. Enumerable.Range(0, size).Select(_ => (float)random.NextDouble() - 0.5f)];
        RealTransform transform = new(size);
        Assert.Equal(size, transform.Size);
        float[] re = new float[size / 2];
        float[] im = new float[size / 2];
        transform.Forward(x, re, im);
        for (int k = 0; k < size / 2; k++)
        {
            Complex sum = Complex.Zero;
            for (int n = 0; n < size; n++)
            {
                sum += x[n] * Complex.FromPolarCoordinates(1, -2 * Math.PI * k * n / size);
            }

            Assert.Equal(sum.Real, re[k], 1e-4);
            Assert.Equal(sum.Imaginary, im[k], 1e-4);
        }
    }

    // Mean of a raised cosine times a line that turns so many times over the window; 0 from five turns on.
    [Theory]
    [InlineData(0)]
    [InlineData(0.31)]
    [InlineData(-0.31)]
    [InlineData(0.5)]
    [InlineData(1)]
    [InlineData(1.002)]
    [InlineData(-1.6)]
    [InlineData(2)]
    [InlineData(2.55)]
    [InlineData(4.5)]
    [InlineData(4.999)]
    public void The_window_spreads_a_line_as_its_transform_says(double distance)
    {
        double sum = 0;
        for (int n = -5_000; n < 5_000; n++)
        {
            sum += (1 + Math.Cos(2 * Math.PI * n / 10_000)) * Math.Cos(2 * Math.PI * distance * n / 10_000) / 10_000;
        }

        Assert.Equal(sum, HannKernel.At(distance), 2e-5);
        Assert.Equal(0, HannKernel.At(5.01));
        Assert.Equal(0, HannKernel.At(-60));
    }

    [Fact]
    public void A_history_gives_back_what_was_added()
    {
        SampleHistory history = new(5_000);
        Assert.Equal(5_000, history.Kept);
        for (int round = 0; round < 2; round++)
        {
            for (int n = 0; n < 60_000; n++)
            {
                history.Add(n);
                if (n % 777 == 0 || n is 19_999 or 20_000 or 20_001)
                {
                    int kept = Math.Min(5_000, n + 1);
                    ReadOnlySpan<float> newest = history.From(n + 1 - kept, kept);
                    Assert.Equal((n + 1 - kept, n), (newest[0], newest[^1]));
                    Assert.Equal(n - (kept / 2), history.From(n - (kept / 2), 1)[0]);
                }
            }

            Assert.Equal(60_000, history.Added);
            history.Clear();
            Assert.Equal(0, history.Added);
        }
    }

    // A history of few samples still has room for a stretch.
    [Fact]
    public void A_short_history_keeps_what_it_says()
    {
        SampleHistory history = new(3);
        for (int n = 0; n < 40_000; n++)
        {
            history.Add(n);
        }

        Assert.Equal([39_997f, 39_998f, 39_999f], history.From(39_997, 3).ToArray());
    }

    private static float[] Decimated(int rate, double hz, out Decimator decimator, int block = 1_000)
    {
        decimator = new Decimator(rate);
        SampleHistory history = new(4_000);
        float[] sine = [.. Enumerable.Range(0, rate / 2).Select(n => (float)Math.Cos(2 * Math.PI * hz * n / rate))];
        for (int start = 0; start < sine.Length; start += block)
        {
            decimator.Push(sine.AsSpan(start, Math.Min(block, sine.Length - start)), history);
        }

        // As many as there are whole filters, one for each factor.
        Assert.Equal(((sine.Length - decimator.TapCount) / decimator.Factor) + 1, history.Added);
        return history.From(0, (int)history.Added).ToArray();
    }

    /// <summary>What lies in the band passes as it is, in the middle of the filter; what would fold onto it is stopped by 80 dB.</summary>
    [Theory]
    [InlineData(48_000, 8, 6_000.0)]
    [InlineData(44_100, 8, 5_512.5)]
    [InlineData(11_025, 2, 5_512.5)]
    [InlineData(96_000, 17, 96_000 / 17.0)]
    public void A_decimator_passes_the_band_and_stops_what_would_fold_onto_it(int rate, int factor, double lowHz)
    {
        foreach (double hz in (double[])[0, 116.54, 1_000, 2_200])
        {
            float[] low = Decimated(rate, hz, out Decimator decimator);
            Assert.Equal((factor, lowHz), (decimator.Factor, decimator.RateHz));
            Assert.Equal(1, decimator.TapCount % 2);
            for (int n = 0; n < low.Length; n += 7)
            {
                Assert.Equal(Math.Cos(2 * Math.PI * hz * ((n * factor) + (decimator.TapCount / 2)) / rate), low[n], 2e-4);
            }
        }

        foreach (double hz in (double[])[lowHz - 2_200, lowHz - 1_900, lowHz - 500, lowHz + 1_500])
        {
            Assert.InRange(Decimated(rate, hz, out _).Max(Math.Abs), 0, 2e-4);
        }
    }

    [Fact]
    public void A_slow_stream_passes_as_it_is_and_what_is_not_finite_is_silence()
    {
        Decimator decimator = new(8_000);
        Assert.Equal((1, 8_000.0, 1), (decimator.Factor, decimator.RateHz, decimator.TapCount));
        SampleHistory history = new(10);
        decimator.Push([1f, float.NaN, 3f, float.PositiveInfinity, 5f], history);
        Assert.Equal([1f, 0f, 3f, 0f, 5f], history.From(0, 5).ToArray());
    }

    /// <summary>The same samples in other blocks, or after a reset, give the same.</summary>
    [Fact]
    public void Blocks_make_no_difference_to_a_decimator()
    {
        float[] whole = Decimated(48_000, 440, out Decimator decimator, 24_000);
        Assert.Equal(whole, Decimated(48_000, 440, out _, 7));
        SampleHistory history = new(4_000);
        decimator.Reset();
        decimator.Push([.. Enumerable.Range(0, 2_000).Select(n => (float)Math.Cos(2 * Math.PI * 440 * n / 48_000.0))], history);
        Assert.Equal(whole[..10], history.From(0, 10).ToArray());
    }

    // Source: A. Camacho's levelling by powers (see the class), here a quarter of the distance in dB: amplitude P^(1/2) counts as P^(3/8).
    [Fact]
    public void A_line_reads_half_its_amplitude_and_its_phase_from_the_middle()
    {
        // 40 dB under the loudest nothing is raised further: (1e-4 / (P / Pmost + 1e-4))^(1/8).
        WindowSpectrum spectrum = Spectrum((300.0, 0.5, 0.7), (900.0, 0.05, -1.9), (1_500.0, 0.0005, 2.5));
        Assert.Equal((Length, RateHz, UnitHz), (spectrum.Length, spectrum.RateHz, spectrum.ResolutionHz));
        Assert.InRange(spectrum.BinHz, UnitHz / 8.6, UnitHz / 4);
        foreach ((double hz, double amplitude, double phase, double share) in ((double, double, double, double)[])[(300, 0.5, 0.7, 1), (900, 0.05, -1.9, 0.01), (1_500, 0.0005, 2.5, 1e-6)])
        {
            double gain = spectrum.GainAt(hz);
            Assert.Equal(Math.Pow(1e-4 / (share + 1e-4), 1 / 8.0), gain, 0.006);
            spectrum.Read(hz, out double re, out double im);
            Assert.Equal(amplitude / 2 * gain * Math.Cos(phase), re, 0.002 * amplitude);
            Assert.Equal(amplitude / 2 * gain * Math.Sin(phase), im, 0.002 * amplitude);
        }

        // Half a unit beside the loudest the window holds 0.849 of it.
        spectrum.Read(300 + (UnitHz / 2), out double besideRe, out double besideIm);
        Assert.Equal(0.25 * HannKernel.At(0.5) * spectrum.GainAt(300), Math.Sqrt((besideRe * besideRe) + (besideIm * besideIm)), 3e-4);

        // The levelling falls off in a straight line over eight units, so that half of it is left at four.
        Assert.Equal(Math.Pow(1e-4 / (0.5 + 1e-4), 1 / 8.0), spectrum.GainAt(300 - (4 * UnitHz)), 0.006);
        Assert.Equal(1, spectrum.GainAt(300 + (11 * UnitHz)), 0.01);
        Assert.Equal(spectrum.GainAt(0), spectrum.GainAt(-50));
        Assert.Equal(spectrum.GainAt(2_230), spectrum.GainAt(9_000));

        // Outside the band there is nothing.
        foreach (double hz in (double[])[0, -300, 0.9 * spectrum.BinHz, 2_300, 9_000])
        {
            spectrum.Read(hz, out double re, out double im);
            Assert.Equal((0.0, 0.0), (re, im));
        }

        spectrum.Read(2_199, out double topRe, out _);
        Assert.NotEqual(0, topRe);
        spectrum.Read(1.1 * spectrum.BinHz, out double bottomRe, out _);
        Assert.NotEqual(0, bottomRe);
        Assert.Throws<ArgumentOutOfRangeException>(() => new WindowSpectrum(960, RateHz, 2_200));
    }

    /// <summary>Between two bins a line of one unit's width is read as it is at the bins.</summary>
    [Fact]
    public void A_spectrum_reads_the_same_wherever_a_line_falls()
    {
        for (double hz = 400; hz < 402; hz += 0.11)
        {
            WindowSpectrum spectrum = Spectrum((hz, 1, 0.4));
            spectrum.Read(hz, out double re, out double im);
            double gain = Math.Pow(1e-4 / (1 + 1e-4), 1 / 8.0);
            Assert.Equal(0.5 * gain, Math.Sqrt((re * re) + (im * im)), 0.0008);
            Assert.Equal(0.4, Math.Atan2(im, re), 0.002);
        }
    }

    [Fact]
    public void Lines_are_listed_in_order_with_their_numbers()
    {
        LineFit lines = new();
        lines.List(100, 150, 450, 320);
        Assert.Equal(6, lines.Count);
        Assert.Equal([100, 150, 200, 300, 300, 400], lines.FrequencyHz[..6]);
        Assert.Equal([1, 0, 2, 3, 0, 4], lines.PlayedNumber[..6]);
        Assert.Equal([0, 1, 0, 0, 2, 0], lines.SungNumber[..6]);
        Assert.Equal((50.0, 50.0, 0.0, 0.0, 100.0), (lines.NearestHz(0), lines.NearestHz(2), lines.NearestHz(3), lines.NearestHz(4), lines.NearestHz(5)));
        Assert.Equal(5, lines.Distinct(0.5, 6));
        Assert.Equal(3, lines.Distinct(50, 6));
        Assert.Equal(1, lines.Distinct(100, 6));
        Assert.Equal(4, lines.Distinct(0.5, 5));

        // A tone at 0 Hz is left out; a line on the top counts.
        lines.List(0, 100, 500, 300);
        Assert.Equal([0, 0, 0], lines.PlayedNumber[..lines.Count]);
        Assert.Equal([1, 2, 3], lines.SungNumber[..lines.Count]);
        lines.List(100, 0, 300, 500);
        Assert.Equal([1, 2, 3], lines.PlayedNumber[..lines.Count]);
        Assert.Equal(double.PositiveInfinity, Single(100).NearestHz(0));
        lines.List(0, 0, 300, 300);
        Assert.Equal((0, 0), (lines.Count, lines.Distinct(1, 0)));
        lines.List(10, 11, 2_200, 2_200);
        Assert.Equal(LineFit.MostLines, lines.Count);
    }

    private static LineFit Single(double hz)
    {
        LineFit lines = new();
        lines.List(hz, 0, hz, 0);
        return lines;
    }

    /// <summary>The normal equations written out: (G + ridge) c = b, G the window's transform at the lines' distances, b the spectrum at the lines; explained 2 b . c.</summary>
    [Theory]
    [InlineData(116.0, 174.4, 1e-5)]
    [InlineData(116.0, 185.0, 1e-2)]
    [InlineData(61.0, 63.0, 1e-5)]
    [InlineData(40.0, 0.0, 1e-5)]
    [InlineData(0.0, 232.0, 1e-5)]
    public void A_line_fit_is_the_least_of_the_squares(double playedHz, double sungHz, double ridge)
    {
        var random = new Random(5);
        WindowSpectrum spectrum = new(Length, RateHz, Decimator.BandTopHz);
        spectrum.Take([.. Enumerable.Range(0, Length).Select(_ => (float)(random.NextDouble() - 0.5))]);
        LineFit lines = new();
        lines.List(playedHz, sungHz, 1_000, 1_000);
        int n = lines.Count;
        double energy = lines.Solve(spectrum, ridge, amplitudes: true);
        Matrix<double> matrix = Matrix<double>.Build.Dense(n, n, (i, j) => HannKernel.At((lines.FrequencyHz[i] - lines.FrequencyHz[j]) / UnitHz) + (i == j ? ridge : 0));
        Vector<double> re = Vector<double>.Build.Dense(n), im = Vector<double>.Build.Dense(n);
        for (int i = 0; i < n; i++)
        {
            spectrum.Read(lines.FrequencyHz[i], out double x, out double y);
            (re[i], im[i]) = (x, y);
        }

        Vector<double> solvedRe = matrix.Solve(re), solvedIm = matrix.Solve(im);
        double explained = 2 * (re.DotProduct(solvedRe) + im.DotProduct(solvedIm));
        Assert.Equal(explained, energy, 1e-9 * explained);
        Assert.Equal(energy, lines.Solve(spectrum, ridge, amplitudes: false));
        for (int i = 0; i < n; i++)
        {
            Assert.Equal(solvedRe[i], lines.Re[i], 1e-6 * solvedRe.InfinityNorm());
            Assert.Equal(solvedIm[i], lines.Im[i], 1e-6 * solvedIm.InfinityNorm());
        }

        double[] before = lines.Re[..n];
        double[] beforeIm = lines.Im[..n];
        lines.Restore(spectrum);
        for (int i = 0; i < n; i++)
        {
            Assert.Equal(before[i], lines.Re[i] * spectrum.GainAt(lines.FrequencyHz[i]), 1e-9);
            Assert.Equal(beforeIm[i], lines.Im[i] * spectrum.GainAt(lines.FrequencyHz[i]), 1e-9);
        }
    }

    /// <summary>Two harmonics of a pair that lie 0.6 of a unit apart are fitted with the amplitudes they have.</summary>
    [Fact]
    public void Lines_that_overlap_are_parted()
    {
        WindowSpectrum spectrum = Spectrum((400.0, 0.4, 0.3), (400.0 + (1.4 * UnitHz), 0.2, -1.0));
        LineFit lines = new();
        lines.List(400, 400 + (1.4 * UnitHz), 450, 450);
        double explained = lines.Solve(spectrum, 1e-6, amplitudes: true);
        lines.Restore(spectrum);
        Assert.Equal(0.2, Math.Sqrt((lines.Re[0] * lines.Re[0]) + (lines.Im[0] * lines.Im[0])), 0.006);
        Assert.Equal(0.1, Math.Sqrt((lines.Re[1] * lines.Re[1]) + (lines.Im[1] * lines.Im[1])), 0.006);
        Assert.Equal(0.3, Math.Atan2(lines.Im[0], lines.Re[0]), 0.03);
        Assert.Equal(-1.0, Math.Atan2(lines.Im[1], lines.Re[1]), 0.03);

        // A cos alone gives A^2 / 2, levelled by the square of the gain.
        spectrum = Spectrum((400.0, 0.4, 0.3));
        explained = Explained(spectrum, 400);
        Assert.Equal(0.08 * Math.Pow(spectrum.GainAt(400), 2), explained, 1e-4 * 0.08);
    }

    private static double Explained(WindowSpectrum spectrum, double hz)
    {
        LineFit lines = Single(hz);
        return lines.Solve(spectrum, 1e-6, amplitudes: false);
    }

    /// <summary>Power of a line, before and after the fit has taken it; what lies beside the band is not counted.</summary>
    [Fact]
    public void What_a_fit_leaves_is_what_it_does_not_hold()
    {
        WindowSpectrum spectrum = Spectrum((300.0, 0.4, 0.3), (700.0, 0.4, 1.0));
        Residual residual = new(spectrum);
        double power = 0.08 * Math.Pow(spectrum.GainAt(300), 2);
        Assert.Equal(2 * power, residual.BandPower(20, 2_200), 0.03 * power);
        Assert.Equal(power, residual.BandPower(20, 500), 0.02 * power);
        Assert.Equal(power, residual.BandPower(500, 900), 0.02 * power);
        LineFit lines = Single(300);
        lines.Solve(spectrum, 1e-6, amplitudes: true);
        residual.Take(lines);
        Assert.Equal(0, residual.LeftPower(20, 500), 0.005 * power);
        Assert.Equal(power, residual.LeftPower(500, 900), 0.02 * power);

        // Near the fitted line the noise is what is left, the present what there was: the mean of a squared kernel over 2.5 units to a side.
        Assert.Equal(0, residual.Noise[0], 0.005 * residual.Present[0]);
        Assert.Equal(1.5 / 5 * 0.5 * power, residual.Present[0], 0.1 * 0.15 * power);
        Assert.True(residual.ForeignPower(300, 450, 20, 2_200) > 0.9 * power);
        Assert.Equal(0, residual.ForeignPower(300, 700, 20, 2_200), 0.002 * power);

        // 700 Hz is a harmonic of either, a sum or a difference of one with the other.
        foreach ((double p, double s) in ((double, double)[])[(350, 450), (450, 350), (250, 450), (200, 100.5), (300, 400), (900, 200), (400, 300), (200, 900), (500, 600), (600, 1_300), (1_300, 600)])
        {
            Assert.Equal(0, residual.ForeignPower(p, s, 20, 2_200), 0.002 * power);
        }

        Assert.True(residual.ForeignPower(310, 452, 20, 2_200) > 0.9 * power);
        Assert.Equal(0, residual.ForeignPower(310, 452, 20, 600), 0.01 * power);
        Assert.Equal(0, residual.ForeignPower(310, 452, 800, 2_200), 0.01 * power);
    }

    [Fact]
    public void What_stands_out_is_told_against_the_geometric_mean()
    {
        var random = new Random(3);
        float[] noise = [.. Enumerable.Range(0, Length).Select(_ => (float)(0.01 * (random.NextDouble() - 0.5)))];
        float[] line = Window((700.0, 0.1, 1.0));
        WindowSpectrum spectrum = new(Length, RateHz, Decimator.BandTopHz);
        spectrum.Take([.. noise.Zip(line, (a, b) => a + b)]);
        Residual residual = new(spectrum);
        residual.Take(new LineFit());
        residual.Level(20, 1_400);
        double logs = 0;
        int from = (int)Math.Ceiling(20 / spectrum.BinHz), to = (int)(1_400 / spectrum.BinHz);
        double Log(int bin) => Math.Log(((double)spectrum.Re[bin] * spectrum.Re[bin]) + ((double)spectrum.Im[bin] * spectrum.Im[bin]));
        for (int bin = from; bin <= to; bin++)
        {
            logs += Log(bin) / (to - from + 1);
        }

        // The loudest of the three nearest bins counts.
        int at = (int)Math.Round(700 / spectrum.BinHz);
        double most = Math.Max(Log(at), Math.Max(Log(at - 1), Log(at + 1)));
        Assert.Equal(most - logs, residual.StandsOutAt(700), 1e-6);
        Assert.True(residual.StandsOutAt(700) > 5);
        for (double hz = 400; hz < 500; hz += 3)
        {
            at = (int)Math.Round(hz / spectrum.BinHz);
            Assert.Equal(Math.Max(Log(at), Math.Max(Log(at - 1), Log(at + 1))) - logs, residual.StandsOutAt(hz), 1e-6);
        }
    }
}
