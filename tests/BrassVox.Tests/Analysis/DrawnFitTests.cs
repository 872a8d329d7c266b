using BrassVox.Analysis.Tracking;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>The searches and fits of the tracker on single windows of 160 ms, of sums of cosines that were drawn. No outside source but where one is named.</summary>
public sealed class DrawnFitTests
{
    private const double RateHz = 6_000;
    private const int Length = 959;
    private const double UnitHz = RateHz / Length;
    private const double TopHz = PairSearch.TopHz;

    private static readonly double[] Falling = [1, 0.7, 0.5, 0.4, 0.3, 0.25, 0.2, 0.15];

    /// <summary>Harmonics of both tones with phases of their own, counted from the middle; pitch in cents may move.</summary>
    internal static float[] Window(
        double playedHz, double sungHz, double[]? played = null, double[]? sung = null, double noise = 0, double playedCentsPerSecond = 0, int length = Length, double scale = 0.1)
    {
        var random = new Random(9);
        float[] window = new float[length];
        for (int n = 0; n < length; n++)
        {
            double t = (n - (length / 2)) / RateHz;
            double rate = playedCentsPerSecond / 1200 * Math.Log(2);
            double turned = playedHz * (rate == 0 ? t : (Math.Exp(rate * t) - 1) / rate);
            double sum = noise * (random.NextDouble() - 0.5);
            for (int k = 1; playedHz > 0 && k <= (played ?? Falling).Length; k++)
            {
                sum += scale * (played ?? Falling)[k - 1] * Math.Cos((2 * Math.PI * k * turned) + (0.9 * k * k));
            }

            for (int k = 1; sungHz > 0 && k <= (sung ?? Falling).Length; k++)
            {
                sum += scale * (sung ?? Falling)[k - 1] * Math.Cos((2 * Math.PI * k * sungHz * t) + (1.7 * k * k) + 0.4);
            }

            window[n] = (float)sum;
        }

        return window;
    }

    private static PairSearch Search(float[] window)
    {
        WindowSpectrum spectrum = new(window.Length, RateHz, TopHz);
        spectrum.Take(window);
        return new PairSearch(spectrum);
    }

    private static void Near(double playedHz, double sungHz, PairFit fit, double cents)
    {
        Assert.Equal(0, Cents.Between(playedHz, fit.PlayedHz), cents);
        Assert.Equal(0, Cents.Between(sungHz, fit.SungHz), cents);
    }

    /// <summary>Pairs whose partials lie clear of one another, or meet as those of the just fifth, the tenth and a tritone.</summary>
    [Theory]
    [InlineData(116.0, 185.3, 0.3)]
    [InlineData(116.0, 174.9, 1.5)]
    [InlineData(87.0, 217.0, 0.6)]
    [InlineData(58.5, 291.0, 1.5)]
    [InlineData(233.0, 131.0, 0.3)]
    public void A_search_climbs_to_the_pair(double playedHz, double sungHz, double cents)
    {
        PairSearch search = Search(Window(playedHz, sungHz));
        Near(playedHz, sungHz, search.Refine(Cents.Above(playedHz, 9), Cents.Above(sungHz, -8), 6, TopHz, 6), cents);
        Near(playedHz, sungHz, search.Refine(Cents.Above(playedHz, -14), Cents.Above(sungHz, -8), 6, TopHz, 8), cents);
        Near(playedHz, sungHz, search.Acquire(Cents.Above(playedHz, 82), Cents.Above(sungHz, -71), 100), cents);
        PairFit alone = search.RefinePlayed(Cents.Above(playedHz, 8), sungHz, 4, 4);
        Near(playedHz, sungHz, alone, cents);
        Assert.Equal(sungHz, alone.SungHz);
        Near(playedHz, sungHz, search.RefinePlayed(Cents.Above(playedHz, -8), sungHz, 4, 4), cents);
    }

    [Fact]
    public void A_search_says_what_lines_take()
    {
        PairSearch search = Search(Window(116, 185.3));
        Assert.Equal(UnitHz, search.LineHz);
        Assert.Equal(UnitHz / 2_200, search.LineShare);

        // With both tones nearly all is explained; each by itself explains its own.
        double band = new Residual(search.Spectrum).BandPower(20, TopHz);
        double both = search.Explained(116, 185.3, TopHz);
        Assert.Equal(band, both, 0.02 * band);
        Assert.InRange(search.Explained(116, 0, TopHz), 0.35 * band, 0.7 * band);
        Assert.Equal(both, search.Explained(116, 0, TopHz) + search.Explained(0, 185.3, TopHz), 0.05 * band);

        // The ridge of the search takes a little off; a top of its own leaves partials out.
        Assert.InRange(search.Explained(116, 185.3, TopHz, TopHz), 0.97 * both, 0.9999 * both);
        Assert.InRange(search.Explained(116, 185.3, 300, TopHz), 0.6 * both, 0.9 * both);
        Assert.Equal(2 + 11, search.Lines.Count);
    }

    /// <summary>Curvatures are minus the second derivatives of what is explained, by cents.</summary>
    [Fact]
    public void Curvatures_are_those_of_the_explained_power()
    {
        PairSearch search = Search(Window(116, 174.9));
        PairFit fit = search.Refine(116, 174.9, 2, TopHz, 1);
        double At(double a, double b) => search.Explained(Cents.Above(116, a), Cents.Above(174.9, b), TopHz);
        const double h = 1;
        double played = ((2 * At(0, 0)) - At(h, 0) - At(-h, 0)) / (h * h);
        double sung = ((2 * At(0, 0)) - At(0, h) - At(0, -h)) / (h * h);
        double cross = -(At(h, h) - At(h, -h) - At(-h, h) + At(-h, -h)) / (4 * h * h);
        Assert.Equal(played, fit.CurvaturePlayed, 0.1 * played);
        Assert.Equal(sung, fit.CurvatureSung, 0.1 * sung);
        Assert.Equal(cross, fit.CurvatureCross, 0.1 * played);
        Assert.Equal(At(0, 0), fit.ExplainedPower);
        Assert.Equal(played, search.RefinePlayed(116, 174.9, 2, 1).CurvaturePlayed, 0.1 * played);

        // Where the other pitch may give way, the curvature is no larger, and about what the two curvatures and the cross leave.
        (double profiledPlayed, double profiledSung) = search.Profile(116, 174.9, 2);
        Assert.InRange(profiledPlayed, 0.3 * played, 1.02 * played);
        Assert.InRange(profiledSung, 0.3 * sung, 1.02 * sung);
    }

    /// <summary>Of a pair whose lines meet either pitch may give way by 2 c while the other moves by 2: what is lost then, doubled and by square cents, decides.</summary>
    [Theory]
    [InlineData(174.4)]
    [InlineData(185.3)]
    [InlineData(116.6)]
    public void A_profile_is_what_is_lost_when_the_other_may_give_way(double sungHz)
    {
        PairSearch search = Search(Window(116, sungHz));
        double At(double a, double b) => search.Explained(Cents.Above(116, a), Cents.Above(sungHz, b), TopHz);
        double played = ((2 * At(0, 0)) - Most(g => At(2, g)) - Most(g => At(-2, g))) / 4;
        double sung = ((2 * At(0, 0)) - Most(g => At(g, 2)) - Most(g => At(g, -2))) / 4;
        (double profiledPlayed, double profiledSung) = search.Profile(116, sungHz, 2);
        Assert.Equal(played, profiledPlayed, 1e-6 * played);
        Assert.Equal(sung, profiledSung, 1e-6 * sung);
        static double Most(Func<double, double> at) => Math.Max(at(0), Math.Max(at(2), at(-2)));
    }

    private static PairFit Sharpened(float[] window, double playedHz, double sungHz)
    {
        PairSearch search = Search(window);
        search.Explained(playedHz, sungHz, TopHz, amplitudes: true);
        search.Lines.Restore(search.Spectrum);
        return new SharpFit(window.Length, RateHz).Sharpen(window, new PairFit(playedHz, sungHz, 1, 2, 3, 4), search.Lines);
    }

    /// <summary>On the samples themselves a pair of cosines is found to a hundredth of a cent: the model is exact.</summary>
    [Theory]
    [InlineData(116.0, 185.3, 1.5, -1.2, 0.01)]
    [InlineData(116.0, 174.9, 1.5, -1.2, 0.05)]
    [InlineData(233.0, 131.0, -2.0, 2.0, 0.01)]
    [InlineData(58.5, 291.0, 1.0, 2.0, 0.01)]
    public void The_last_step_is_exact(double playedHz, double sungHz, double playedOff, double sungOff, double cents)
    {
        PairFit fit = Sharpened(Window(playedHz, sungHz), Cents.Above(playedHz, playedOff), Cents.Above(sungHz, sungOff));
        Near(playedHz, sungHz, fit, cents);
        Assert.Equal((1.0, 2.0, 3.0, 4.0), (fit.ExplainedPower, fit.CurvaturePlayed, fit.CurvatureSung, fit.CurvatureCross));
    }

    /// <summary>What the search has found is moved by 2.5 c at most, 25 where lines of the two lie within 0.4 of a unit; in half the window 2^1.5 times that.</summary>
    [Theory]
    [InlineData(959, 185.3, 2.3, true)]
    [InlineData(959, 185.3, 2.7, false)]
    [InlineData(959, 174.9, 28.0, false)]
    [InlineData(479, 185.3, 6.7, true)]
    [InlineData(479, 185.3, 7.4, false)]
    public void The_last_step_is_short(int length, double sungHz, double off, bool moves)
    {
        float[] window = Window(116, sungHz, [1, 0.7, 0.5], [1, 0.7, 0.5], length: length);
        foreach ((double playedOff, double sungOff) in ((double, double)[])[(off, 0), (0, off), (-off, 0)])
        {
            double p = Cents.Above(116, playedOff), s = Cents.Above(sungHz, sungOff);
            PairFit fit = Sharpened(window, p, s);
            if (moves)
            {
                Near(116, sungHz, fit, 0.05);
            }
            else
            {
                Assert.Equal((p, s), (fit.PlayedHz, fit.SungHz));
            }
        }
    }

    [Fact]
    public void The_last_step_takes_one_tone_by_itself_and_without_lines_leaves_the_pair()
    {
        float[] window = Window(116, 0);
        PairFit fit = Sharpened(window, 116.05, 0);
        Assert.Equal(0, Cents.Between(116, fit.PlayedHz), 0.01);
        Assert.Equal(0.0, fit.SungHz);
        fit = new(100, 150, 1, 2, 3, 4);
        Assert.Equal(fit, new SharpFit(Length, RateHz).Sharpen(window, fit, new LineFit()));
        Assert.Equal(150, Sharpened(Window(150, 150), 150, 150).PlayedHz);
    }

    /// <summary>Partials 30 dB under the loudest say nothing: one that is out of tune with the rest does not move the pitch.</summary>
    [Theory]
    [InlineData(0.02, true)]
    [InlineData(0.05, false)]
    public void Faint_partials_do_not_count(double amplitude, bool isLeftOut)
    {
        // The 9th partial lies 4 c high.
        float[] window = Window(116, 185.3);
        for (int n = 0; n < Length; n++)
        {
            window[n] += (float)(0.1 * amplitude * Math.Cos((2 * Math.PI * Cents.Above(9 * 116, 4) * (n - (Length / 2)) / RateHz) + 0.3));
        }

        double off = Cents.Between(116, Sharpened(window, 116, 185.3).PlayedHz);
        Assert.Equal(isLeftOut, Math.Abs(off) < 0.003);
    }

    /// <summary>
    /// In white noise the last step comes within half of the bound again, on the average over 40 noises.
    /// Source: the bound of Cramer and Rao, worked by <see cref="BrassVox.Analysis.Bounds.CramerRao"/>.
    /// </summary>
    [Fact]
    public void The_last_step_comes_near_the_bound()
    {
        const double rms = 0.01;
        double[] played = [.. Falling.Select(a => 0.1 * a)];
        double[] phases = [.. Enumerable.Range(1, 8).Select(k => 0.9 * k * k)], others = [.. Enumerable.Range(1, 8).Select(k => (1.7 * k * k) + 0.4)];
        BrassVox.Analysis.Bounds.PairBound bound = BrassVox.Analysis.Bounds.CramerRao.PairHz(new(116, played, phases), new(185.3, played, others), rms, RateHz, Length);
        float[] clean = Window(116, 185.3);
        double squares = 0;
        const int tries = 40;
        for (int seed = 0; seed < tries; seed++)
        {
            float[] noise = TestTone.Noise((int)RateHz, 0.17, rms, seed);
            PairFit fit = Sharpened([.. clean.Zip(noise, (a, b) => a + b)], 116, 185.3);
            squares += Math.Pow(fit.PlayedHz - 116, 2) / tries;
        }

        // A standard deviation of 40 tries is known within 11 %.
        Assert.InRange(Math.Sqrt(squares) / bound.PlayedHz, 0.7, 1.5);
    }

    private static (FreeSearch Free, PairSearch Search, Residual Residual, double Band) Free(float[] window)
    {
        PairSearch search = Search(window);
        Residual residual = new(search.Spectrum);
        return (new FreeSearch(search, residual), search, residual, residual.BandPower(20, TopHz));
    }

    /// <summary>A window that a pair accounts for wholly: 0.5 n ln 50 (two parts in a hundred are always left), n = 2 x 2200 Hz over a line's width, less 2 ln n a line.</summary>
    [Theory]
    [InlineData(5, 3, 8)]
    [InlineData(4, 3, 8)]
    [InlineData(6, 3, 12)]
    [InlineData(6, 5, 14)]
    public void A_score_is_a_likelihood_less_the_price_of_its_lines(int ofPlayed, int ofSung, int lines)
    {
        // Harmonics of 100 Hz up to 500 or 900, of 270 Hz up to 900 or 1400.
        (FreeSearch free, PairSearch search, _, double band) = Free(Window(100, 270.5, [.. Enumerable.Repeat(1.0, ofPlayed)], [.. Enumerable.Repeat(1.0, ofSung)]));
        double values = 2 / search.LineShare;
        double full = 0.5 * values * Math.Log(50);
        Assert.Equal(full - (2 * Math.Log(values) * lines), free.Score(new PairFit(100, 270.5, 0, 0, 0, 0), band), 1.0);

        // Of two tones at the octave each line counts once.
        (free, _, _, band) = Free(Window(100, 200, [1, 1, 1, 1, 1], [1, 1]));
        Assert.Equal(full - (2 * Math.Log(values) * 5), free.Score(new PairFit(100, 200, 0, 0, 0, 0), band), 1.0);
        Assert.True(free.Score(new PairFit(50, 200, 0, 0, 0, 0), band) < full - (2 * Math.Log(values) * 9.9));
    }

    [Theory]
    [InlineData(116.0, 185.3)]
    [InlineData(98.0, 246.0)]
    [InlineData(131.0, 139.5)]
    [InlineData(220.0, 310.0)]
    public void A_pair_is_found_where_nothing_was_declared(double lowerHz, double upperHz)
    {
        (FreeSearch free, _, _, double band) = Free(Window(lowerHz, upperHz, noise: 0.002));
        FrequencyRange range = new(55, 700);
        Near(lowerHz, upperHz, free.FindEither(range, band)!.Value, 3);
        Near(upperHz, lowerHz, free.Find(new FrequencyRange(upperHz - 40, 700), new FrequencyRange(55, upperHz - 4), band)!.Value, 3);
        Assert.Null(free.Find(new FrequencyRange(2_000, 2_100), range, band));
    }

    [Fact]
    public void In_noise_there_is_no_tone()
    {
        (FreeSearch free, _, _, double band) = Free(TestTone.Noise((int)RateHz, 959 / RateHz + 1e-6, 0.1, 3));
        Assert.Null(free.FindEither(new FrequencyRange(55, 700), band));
        Assert.Null(free.FindOne(new FrequencyRange(55, 700), band));
        (free, _, _, band) = Free(Window(196, 0));
        Assert.Equal(0, Cents.Between(196, free.FindOne(new FrequencyRange(55, 700), band)!.Value), 7.0);
        Assert.Equal(0, Cents.Between(196, free.FindOne(new FrequencyRange(196, 700), band)!.Value), 7.0);
        Assert.Equal(0, Cents.Between(196, free.FindOne(new FrequencyRange(120, 196), band)!.Value), 12.6);
    }

    /// <summary>A pair an octave or twelfth too high or too low in one tone is led back, when that accounts for the window by the margin better.</summary>
    [Theory]
    [InlineData(0.5, 1)]
    [InlineData(2, 1)]
    [InlineData(1, 0.5)]
    [InlineData(1, 2)]
    [InlineData(3, 1)]
    [InlineData(1, 3)]
    [InlineData(1 / 3.0, 1)]
    public void A_pair_an_octave_away_is_led_back(double first, double second)
    {
        (FreeSearch free, _, _, double band) = Free(Window(196, 261));
        FrequencyRange range = new(40, 900);
        PairFit wrong = new(first * 196.3, second * 260.8, 0, 0, 0, 0);
        Near(196, 261, free.OctaveAway(wrong, range, range, band, 20)!.Value, 1);
        double gain = free.Score(new PairFit(196.3, 260.8, 0, 0, 0, 0), band) - free.Score(wrong, band);
        Assert.NotNull(free.OctaveAway(wrong, range, range, band, gain - 1));
        Assert.Null(free.OctaveAway(wrong, range, range, band, gain + 1));

        // What is out of its range is not taken.
        Assert.True((free.OctaveAway(wrong, new FrequencyRange(197, 900), range, band, 20)?.PlayedHz ?? 900) > 197);
        Assert.True((free.OctaveAway(wrong, range, new FrequencyRange(262, 900), band, 20)?.SungHz ?? 900) > 262);
        Assert.Null(free.OctaveAway(new PairFit(196, 261, 0, 0, 0, 0), range, range, band, 20));
    }

    /// <summary>A voice at 261 Hz that coupling shows at S - P, S + P or 2 P - S: each is traced back to it.</summary>
    [Theory]
    [InlineData(65.0)]
    [InlineData(457.0)]
    [InlineData(131.0)]
    [InlineData(653.0)]
    public void A_line_of_coupling_is_traced_back_to_the_voice(double lineHz)
    {
        (FreeSearch free, _, _, double band) = Free(Window(196, 261));
        FrequencyRange range = new(100, 900);
        (PairFit fit, double score) = free.BehindCoupling(new PairFit(196, lineHz, 0, 0, 0, 0), true, range, band);
        Near(196, 261, fit, 1);
        Assert.Equal(free.Score(fit, band), score);
        (fit, score) = free.BehindCoupling(new PairFit(lineHz, 196, 0, 0, 0, 0), false, range, band);
        Near(261, 196, fit, 1);
        Assert.Equal(double.NegativeInfinity, free.BehindCoupling(new PairFit(196, lineHz, 0, 0, 0, 0), true, new FrequencyRange(10, 11), band).Score);
    }

    // Every second, third partial of a tone alone, or a tone where only its multiples sound.
    private static (double Lower, double Upper, bool Surely)? Instead(float[] window, double lowerHz, double upperHz, double bottomHz = 40)
    {
        PairSearch search = Search(window);
        double band = new Residual(search.Spectrum).BandPower(20, TopHz);
        double lower = search.Explained(lowerHz, 0, TopHz), upper = search.Explained(0, upperHz, TopHz);
        double both = search.Explained(lowerHz, upperHz, TopHz, amplitudes: true);
        search.Lines.Restore(search.Spectrum);
        return TrueSeries.Instead(search, lowerHz, upperHz, both - upper, both - lower, both, band, bottomHz);
    }

    [Fact]
    public void A_pair_of_whole_series_stands()
    {
        Assert.Null(Instead(Window(116, 185.3), 116, 185.3));
        Assert.Null(Instead(Window(98, 246), 98, 246));
        Assert.Null(Instead(Window(131, 139.5), 131, 139.5));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void A_series_of_which_only_multiples_sound_is_too_low(int times)
    {
        (double, double, bool) truth = (232, 313, true);
        Assert.Equal(truth, Instead(Window(232, 313), 232.0 / times, 313));
        Assert.Equal((232.0, 313.0, true), Instead(Window(313, 232), 232, 313.0 / times) ?? default);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(5)]
    public void Every_so_many_partials_alone_are_too_high(int times)
    {
        // What the upper tone adds is a fifth of the band at most, but of its half.
        double[] faint = [.. Falling.Select(a => 0.4 * a), 0.05, 0.05, 0.04, 0.04];
        (double lower, double upper, bool _) = Instead(Window(147, 101.5, sung: faint), 147, 101.5 * times) ?? default;
        Assert.Equal((101.5, 147.0), (Math.Round(lower, 6), Math.Round(upper, 6)));
        Assert.Null(Instead(Window(147, 101.5, sung: faint), 147, 101.5 * times, bottomHz: 102));
    }

    /// <summary>What a product of both tones explains is taken, and no more: (1 + c v) p + v is p, v and c p v.</summary>
    [Fact]
    public void The_product_of_two_tones_is_taken_out()
    {
        const double p = 147, s = 257, depth = 1.2;
        double[] three = [1, 0.7, 0.5];
        float[] played = Window(p, 0, three, scale: 0.3), sung = Window(0, s, sung: three, scale: 0.3);
        float[] coupled = [.. played.Zip(sung, (a, b) => (float)(a + b + (depth * a * b)))];
        PairSearch search = Search(coupled);
        search.Explained(p, s, TopHz, amplitudes: true);
        Residual residual = new(search.Spectrum);
        residual.Take(search.Lines);
        search.Lines.Restore(search.Spectrum);
        double before = residual.LeftPower(20, TopHz);
        double taken = residual.TakeProduct(search.Lines, p, s);
        double after = residual.LeftPower(20, TopHz);
        Assert.True(after < 0.12 * before, $"{after} of {before}");
        Assert.Equal(before - after, taken, 0.02 * before);

        // Three harmonics each: nine sums and nine differences, of half the product of the amplitudes each, levelled where they lie.
        double expected = 0;
        for (int k = 1; k <= 3; k++)
        {
            for (int j = 1; j <= 3; j++)
            {
                foreach (double hz in (double[])[(k * p) + (j * s), Math.Abs((k * p) - (j * s))])
                {
                    expected += 0.5 * Math.Pow(depth * 0.5 * 0.09 * three[k - 1] * three[j - 1] * search.Spectrum.GainAt(hz), 2);
                }
            }
        }

        Assert.Equal(expected, taken, 0.15 * expected);
    }

    [Theory]
    [InlineData(100, 200, 2, 1)]
    [InlineData(100, 203.7, 2, 1)]
    [InlineData(100, 196.3, 2, 1)]
    [InlineData(100, 203.8, 0, 0)]
    [InlineData(100, 103.5, 1, 1)]
    [InlineData(200, 207, 1, 1)]
    [InlineData(200, 207.1, 0, 0)]
    [InlineData(207, 200, 1, 1)]
    [InlineData(30, 32, 1, 1)]
    [InlineData(100, 401, 4, 1)]
    [InlineData(100, 501, 5, 1)]
    [InlineData(101, 600, 0, 0)]
    [InlineData(100, 603, 6, 1)]
    [InlineData(100, 700, 0, 0)]
    [InlineData(301, 100, 1, 3)]
    [InlineData(200, 100, 1, 2)]
    [InlineData(100, 150, 0, 0)]
    public void Tones_meet_at_the_unison_and_on_harmonics_up_to_the_sixth(double p, double s, int played, int sung)
    {
        Assert.Equal(played == 0 ? null : (played, sung), FrameVerdict.Meet(p, s));
        Assert.Equal((2, 1), FrameVerdict.Meet(100, 206, 7));
    }
}
