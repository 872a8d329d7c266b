using BrassVox.Analysis;
using BrassVox.Analysis.Tracking;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>What the tracker concludes from envelopes, bends and levels that were drawn, without a sound. No outside source: the truth is the drawing.</summary>
public sealed class DrawnEvidenceTests
{
    private const double HopSeconds = 0.01;

    private static BeatMeter Beats(int hops, Func<double, double> envelope)
    {
        BeatMeter meter = new(HopSeconds);
        for (int i = 0; i < hops; i++)
        {
            meter.Add(1, 1, envelope(i * HopSeconds));
        }

        return meter;
    }

    // Two lines of amplitudes 1 and a: |1 + a e^(i w t)|^2 = 1 + a^2 + 2 a cos w t.
    private static double Pair(double hz, double t, double amplitude = 0.5, double phase = 0.7) =>
        1 + (amplitude * amplitude) + (2 * amplitude * Math.Cos((2 * Math.PI * hz * t) + phase));

    [Theory]
    [InlineData(0.9)]
    [InlineData(1.7)]
    [InlineData(4.2)]
    [InlineData(9.55)]
    [InlineData(14.9)]
    public void Beats_are_counted_by_the_swell(double hz)
    {
        Assert.Equal(hz, Beats(250, t => Pair(hz, t)).Rate()!.Value, 0.03);

        // A level that rises or falls meanwhile is no beat.
        Assert.Equal(hz, Beats(250, t => Pair(hz, t) + (0.8 * t)).Rate()!.Value, 0.03);
        Assert.Equal(hz, Beats(200, t => Pair(hz, t, phase: 2.5)).Rate()!.Value, 0.03);
    }

    [Theory]
    [InlineData(98, 5.0, false)]
    [InlineData(100, 5.0, true)]
    [InlineData(200, 0.70, false)]
    [InlineData(200, 0.85, true)]
    [InlineData(200, 16.0, false)]
    public void A_rate_takes_a_second_and_a_beat_and_a_half(int hops, double hz, bool isTold) => Assert.Equal(isTold, Beats(hops, t => Pair(hz, t)).Rate() is not null);

    /// <summary>A swell is told from a fifth of its mean on: 0.104 of amplitude is 20 dB under the other line.</summary>
    [Theory]
    [InlineData(0.09, false)]
    [InlineData(0.11, true)]
    public void A_swell_has_a_depth(double amplitude, bool isTold) => Assert.Equal(isTold, Beats(200, t => Pair(4, t, amplitude)).Rate() is not null);

    /// <summary>A rate that changes by more than 0.15 within the two seconds is none, nor is one that explains less than 0.8 of what moves.</summary>
    [Fact]
    public void A_rate_is_that_of_the_whole_stretch()
    {
        Assert.Null(Beats(200, t => Pair(4 + (0.4 * t), t)).Rate());
        Assert.NotNull(Beats(200, t => Pair(4 + (0.03 * t), t)).Rate());
        Assert.NotNull(Beats(200, t => Pair(4, t) + (0.45 * Math.Cos(2 * Math.PI * 11 * t))).Rate());
        Assert.Null(Beats(200, t => Pair(4, t) + (0.55 * Math.Cos(2 * Math.PI * 11 * t))).Rate());
        Assert.Null(Beats(200, t => t < 1 ? Pair(4, t) : Pair(4.5, t)).Rate());
        Assert.Null(Beats(200, _ => 1).Rate());
        Assert.Null(Beats(200, _ => 0).Rate());
        Assert.Null(Beats(200, t => 1 + t).Rate());
        Assert.Null(new BeatMeter(HopSeconds).Rate());
    }

    /// <summary>The last two seconds count; another pair of harmonics or a clear begins anew.</summary>
    [Fact]
    public void Old_beats_are_forgotten()
    {
        BeatMeter meter = Beats(500, t => t < 3 ? Pair(7, t) : Pair(3, t));
        Assert.Equal(3, meter.Rate()!.Value, 0.03);
        meter.Add(2, 1, 1);
        Assert.Null(meter.Rate());
        Assert.Null(meter.SlowerThan());
        meter = Beats(200, t => Pair(7, t));
        Assert.NotNull(meter.Rate());
        meter.Clear();
        Assert.Null(meter.Rate());

        // The same two seconds, whatever went before.
        Assert.Equal(Beats(200, t => Pair(3, t + 1)).Rate()!.Value, Beats(300, t => Pair(3, t)).Rate()!.Value, 9);
    }

    /// <summary>What moves slowly in two full seconds beats slower than 0.75 a second; a faster swell of a fifth of the mean does not.</summary>
    [Fact]
    public void Very_slow_beats_are_told_as_slower()
    {
        Assert.Equal(0.75, Beats(200, _ => 1).SlowerThan());
        Assert.Equal(0.75, Beats(200, t => Pair(0.3, t)).SlowerThan());
        Assert.Equal(0.75, Beats(200, t => Pair(0.5, t, 0.3)).SlowerThan());

        // Every polynomial up to the fourth degree is slow.
        Assert.Equal(0.75, Beats(200, t => 1 + t + (2 * t * t) - (t * t * t) + (0.3 * t * t * t * t)).SlowerThan());
        Assert.Null(Beats(199, _ => 1).SlowerThan());
        Assert.Null(Beats(200, t => Pair(3, t, 0.11)).SlowerThan());
        Assert.Equal(0.75, Beats(200, t => Pair(3, t, 0.09)).SlowerThan());
        Assert.Equal(0.75, Beats(200, t => 7 * Pair(3, t, 0.09)).SlowerThan());
        Assert.Null(Beats(200, t => 7 * Pair(3, t, 0.11)).SlowerThan());
        Assert.Null(Beats(200, t => Pair(1.5, t)).SlowerThan());
    }

    // A pitch that bends evenly: x = a t^2 / 2 has x(t) - 2 x(t - L) + x(t - 2 L) = a L^2.
    private static RoleEvidence Bending(int windows, double lowerCents, double upperCents, double variance = 0, double lowerHz = 116)
    {
        RoleEvidence roles = new();
        for (int i = 0; i < windows; i++)
        {
            roles.Add(Cents.Above(lowerHz, lowerCents * i * i / 50), Cents.Above(1.5 * lowerHz, upperCents * i * i / 50), variance);
        }

        return roles;
    }

    private static double Odds(RoleEvidence roles, double lower = 116, double upper = 174) => roles.LowerIsPlayed(lower, upper, DuetPrior.Free);

    /// <summary>
    /// Bends of 1 and 3 c over 50 ms are 4 and 12 c over 100 ms, 16 and 30 (the most that counts) over 200: logarithms of ratios
    /// 0.5 ln(10 / 2), 0.5 ln(145 / 17), 0.5 ln(901 / 257), each counting as its bends, up to 25. Per unit 2 x 1.1 / 0.6^2.
    /// </summary>
    [Fact]
    public void The_tone_that_bends_more_is_sung()
    {
        double[] ratios = [0.5 * Math.Log(10 / 2.0), 0.5 * Math.Log(145 / 17.0), 0.5 * Math.Log(901 / 257.0)];
        const double unit = 2 * 1.1 / (0.6 * 0.6);

        // Nothing heard: singing above is the more usual. A window before the first bend, that, one bend of the next lag, all lags full.
        Assert.Equal(1, Odds(Bending(0, 1, 3)));
        Assert.Equal(1, Odds(Bending(10, 1, 3)));
        Assert.Equal(1 + (unit * ratios[0] / 25), Odds(Bending(11, 1, 3)), 6);
        Assert.Equal(1 + (unit * ((11 * ratios[0]) + ratios[1]) / 25), Odds(Bending(21, 1, 3)), 6);
        Assert.Equal(1 + (unit * ((25 * ratios[0]) + (20 * ratios[1])) / 45), Odds(Bending(40, 1, 3)), 6);
        Assert.Equal(1 + (unit * ratios.Average()), Odds(Bending(100, 1, 3)), 4);
        Assert.Equal(1 - (unit * ratios.Average()), Odds(Bending(100, 3, 1)), 4);
        Assert.Equal(1, Odds(Bending(100, 2, 2)), 9);

        // A pitch known within sqrt(2) c carries 6 x 2 square cents into a bend.
        Assert.Equal(1 + (unit * 0.5 * Math.Log((9 + 13) / (1 + 13.0)) / 25), Odds(Bending(11, 1, 3, variance: 2)), 6);
    }

    [Fact]
    public void A_pause_keeps_what_was_learned_and_a_reset_does_not()
    {
        RoleEvidence roles = Bending(60, 1, 3);
        double before = Odds(roles);
        roles.Pause();

        // Ten windows after a gap say nothing yet, however far the pitch leapt.
        for (int i = 0; i < 10; i++)
        {
            roles.Add(i % 2 == 0 ? 100 : 140, 174, 0);
        }

        Assert.Equal(before, Odds(roles));
        roles.Add(100, 174, 0);
        Assert.NotEqual(before, Odds(roles));
        roles.Reset();
        Assert.Equal(1, Odds(roles));
        Assert.Equal(0, roles.AloneIsPlayed(116, DuetPrior.Free));
    }

    /// <summary>A semitone below every voice it is played, a semitone above the instrument it is sung, whatever bends.</summary>
    [Theory]
    [InlineData(61.0, 200.0, 4.4)]
    [InlineData(61.7, 200.0, 1.0)]
    [InlineData(200.0, 745.0, 4.4)]
    [InlineData(200.0, 740.0, 1.0)]
    [InlineData(25.0, 30.0, 4.4)]
    public void Where_no_voice_or_no_instrument_is_decides(double lower, double upper, double odds) => Assert.Equal(odds, Odds(new RoleEvidence(), lower, upper), 9);

    [Fact]
    public void What_lies_below_the_instrument_or_above_the_voice_turns_the_roles_round()
    {
        DuetPrior prior = new(PlayedLowestHz: 100, PlayedHighestHz: 2_000, SungLowestHz: 65, SungHighestHz: 500);
        Assert.Equal(-4.4, new RoleEvidence().LowerIsPlayed(94, 200, prior), 9);
        Assert.Equal(1, new RoleEvidence().LowerIsPlayed(94.5, 200, prior), 9);
        Assert.Equal(-4.4, new RoleEvidence().LowerIsPlayed(200, 530, prior), 9);
        Assert.Equal(1, new RoleEvidence().LowerIsPlayed(200, 529, prior), 9);
        Assert.Equal(-4.4, new RoleEvidence().AloneIsPlayed(94, prior));
        Assert.Equal(4.4, new RoleEvidence().AloneIsPlayed(501, prior));
        Assert.Equal(0, new RoleEvidence().AloneIsPlayed(100, prior));
        Assert.Equal(0, new RoleEvidence().AloneIsPlayed(500, prior));
        Assert.Equal(4.4, new RoleEvidence().AloneIsPlayed(64, prior));
        Assert.Equal(-4.4, new RoleEvidence().AloneIsPlayed(300, prior with { PlayedHighestHz = 299 }));
        Assert.Equal(0, new RoleEvidence().AloneIsPlayed(300, prior with { PlayedHighestHz = 300 }));
    }

    /// <summary>A tone alone: 2.8 ln(5.5 / sqrt(bend^2 + 1)) over 50 ms, in full from 25 bends on.</summary>
    [Theory]
    [InlineData(2.0, 35, 1.0)]
    [InlineData(9.0, 35, 1.0)]
    [InlineData(9.0, 80, 1.0)]
    [InlineData(2.0, 20, 0.4)]
    [InlineData(2.0, 10, 0.0)]
    public void A_tone_alone_is_told_by_how_far_it_bends(double bend, int windows, double share) =>
        Assert.Equal(2.8 * Math.Log(5.5 / Math.Sqrt((bend * bend) + 1)) * share, Bending(windows, bend, bend).AloneIsPlayed(116, DuetPrior.Free), 6);

    // Partials with levels in dB re the loudest, as a fit would have them.
    private static LineFit Partials(Func<int, double> levelDb, int count = 14, double otherHz = 0)
    {
        LineFit lines = new();
        lines.List(40, otherHz, 40 * count, 40 * count);
        for (int i = 0; i < lines.Count; i++)
        {
            double amplitude = lines.PlayedNumber[i] > 0 ? Math.Pow(10, levelDb(lines.PlayedNumber[i]) / 20) : 1e-6;
            (lines.Re[i], lines.Im[i]) = (0.6 * amplitude, -0.8 * amplitude);
        }

        return lines;
    }

    private static (int Lower, int Upper)? Root(Func<int, double> levelDb, int count = 14) => CommonRoot.Of(Partials(levelDb, count), Partials(levelDb, count).PlayedNumber, 6);

    private static bool On(int k, int a, int b) => k % a == 0 || k % b == 0;

    /// <summary>Lines on the multiples of a and b stand over those between: two tones at a just interval and what coupling makes of them.</summary>
    [Theory]
    [InlineData(2, 3)]
    [InlineData(3, 4)]
    [InlineData(3, 5)]
    [InlineData(2, 5)]
    [InlineData(4, 5)]
    [InlineData(5, 6)]
    [InlineData(3, 8)]
    [InlineData(5, 8)]
    [InlineData(2, 7)]
    public void Two_tones_are_told_by_the_root_that_they_share(int a, int b)
    {
        Assert.Equal((a, b), Root(k => (On(k, a, b) ? 0 : -20) - k));
        Assert.Equal((a, b), Root(k => (On(k, a, b) ? 0 : -10) - (0.5 * k)));
        Assert.Null(Root(k => (On(k, a, b) ? 0 : -8) - (0.5 * k)));
        Assert.Null(Root(k => -2.0 * k));
    }

    [Fact]
    public void A_root_is_empty_under_its_lower_tone()
    {
        // The root's own first partial at -5.5 dB under the weaker of the two is a tone; at -6.5 it is not.
        double Level(int k, double first) => k == 1 ? first : On(k, 2, 3) ? (k == 2 ? -3 : 0) : -30;
        Assert.Null(Root(k => Level(k, -8.5)));
        Assert.Equal((2, 3), Root(k => Level(k, -9.5)));
        Assert.Null(Root(k => On(k, 3, 4) ? 0 : k == 1 ? -5 : -30));
        Assert.Equal((3, 4), Root(k => On(k, 3, 4) ? 0 : k == 1 ? -7 : -30));
    }

    /// <summary>Three partials between multiples are the fewest that say something: of 2 and 3 the 5th, 7th and 11th.</summary>
    [Fact]
    public void A_root_takes_three_partials_between()
    {
        double Level(int k) => On(k, 2, 3) ? 0 : -30;
        Assert.Null(Root(Level, 11));
        Assert.Equal((2, 3), Root(Level, 12));

        // Beyond the 14th nothing counts: -5 dB there would spoil a mean of 9 to 10.
        Assert.Equal((2, 3), Root(k => k > 14 ? 0 : On(k, 2, 3) ? 0 : -11, 40));

        // 40 dB under the loudest is the floor.
        Assert.Equal((2, 3), Root(k => On(k, 2, 3) ? 0 : -300));
        Assert.Null(Root(k => k == 2 ? 0 : k == 3 ? -1 : On(k, 2, 3) ? -35 : -300));
        Assert.Null(Root(Level, 2));
        Assert.Null(CommonRoot.Of(new LineFit(), new int[LineFit.MostLines], 6));
    }

    /// <summary>The step is against the straight line through the multiples on either side.</summary>
    [Fact]
    public void A_root_is_told_against_the_slope_of_its_spectrum()
    {
        double Level(int k, int a, int b, double under) => (-2.5 * k) - (On(k, a, b) ? 0 : k < a ? 60 : under);
        Assert.Null(Root(k => Level(k, 2, 3, 8.5)));
        Assert.Equal((2, 3), Root(k => Level(k, 2, 3, 9.5)));
        Assert.Null(Root(k => Level(k, 3, 4, 8.5)));
        Assert.Equal((3, 4), Root(k => Level(k, 3, 4, 9.5)));
    }

    /// <summary>A line of the other tone that lies within a line's width is the same line of the sound.</summary>
    [Theory]
    [InlineData(3.0, true)]
    [InlineData(-3.0, true)]
    [InlineData(7.0, false)]
    [InlineData(-7.0, false)]
    public void A_line_of_the_other_tone_counts_where_it_coincides(double apartHz, bool counts)
    {
        // The 5th partial seems to be missing: the other tone, at 200 Hz and a little, holds it.
        LineFit lines = new();
        lines.List(40, 200 + apartHz, 560, 210);
        for (int i = 0; i < lines.Count; i++)
        {
            int k = lines.PlayedNumber[i];
            lines.Re[i] = k == 0 ? 1 : On(k, 2, 5) && k != 5 ? 1 : 0.03;
        }

        Assert.Equal(counts ? (2, 5) : null, CommonRoot.Of(lines, lines.PlayedNumber, 6));
    }

    [Fact]
    public void A_range_is_cents_to_either_side_and_holds_its_ends()
    {
        FrequencyRange range = FrequencyRange.Around(100, 1200);
        Assert.Equal((50.0, 200.0), (range.LowestHz, range.HighestHz));
        Assert.True(range.Holds(50) && range.Holds(200) && range.Holds(99));
        Assert.False(range.Holds(49.9) || range.Holds(200.1));
        Assert.Equal(new PairFit(1, 2, 3, 4, 5, 6), new PairFit(1, 2, 3, 4, 5, 6).LowerFirst());
        Assert.Equal(new PairFit(1, 2, 3, 5, 4, 6), new PairFit(2, 1, 3, 4, 5, 6).LowerFirst());
        Assert.Equal(new PairFit(2, 2, 3, 4, 5, 6), new PairFit(2, 2, 3, 4, 5, 6).LowerFirst());
    }

    /// <summary>Odds of nine to one give the roles; short of them both stay open, the lower tone first.</summary>
    [Theory]
    [InlineData(2.2, true)]
    [InlineData(-2.2, false)]
    [InlineData(double.PositiveInfinity, true)]
    public void Clear_odds_give_roles(double odds, bool firstIsPlayed)
    {
        PitchEstimate low = new(100, -20, 1), high = new(150, -18, 0.9);
        AnalysisFrame frame = new WindowReading(-17, high, low, 2, Separability.Separable, 3, odds, 0.75).ToFrame(160, 2_560, 16_000, odds);
        Assert.Equal(firstIsPlayed ? (high, low) : (low, high), (frame.Played!.Value, frame.Sung!.Value));
        Assert.Null(frame.RolesOpen);
        Assert.Null(frame.OneSeries);
        Assert.Equal((160L, 2_560, 16_000, -17.0, 2.0, 0.75, Separability.Separable), (frame.FirstSample, frame.LengthSamples, frame.SampleRateHz, frame.LevelDbfs, frame.BeatRateHz!.Value, frame.BeatsBelowHz!.Value, frame.Separability));
    }

    [Fact]
    public void Unclear_odds_leave_the_roles_open()
    {
        PitchEstimate low = new(100, -20, 1), high = new(150, -18, 0.9), series = new(50, -15, 1);
        foreach ((PitchEstimate first, PitchEstimate second) in ((PitchEstimate, PitchEstimate)[])[(low, high), (high, low)])
        {
            AnalysisFrame frame = new WindowReading(-17, first, second, null, Separability.Separable, 3, 2.1).ToFrame(0, 1, 1, 2.1);
            Assert.Equal((null, null, null), (frame.Played, frame.Sung, frame.OneSeries));
            Assert.Equal((low, high), frame.RolesOpen);
        }

        AnalysisFrame One(PitchEstimate? first, PitchEstimate? second, double odds, PitchEstimate? of = null, Separability separability = Separability.OneTone) =>
            new WindowReading(-17, first, second, null, separability, 3, odds, null, of).ToFrame(0, 1, 1, odds);
        Assert.Equal((null, null, low, null), (One(low, null, 0).Played, One(low, null, 0).Sung, One(low, null, 0).OneSeries, One(low, null, 0).RolesOpen));
        Assert.Equal(low, One(null, low, -1).OneSeries);
        Assert.Equal((low, null), (One(low, null, 3).Played, One(low, null, 3).OneSeries));
        Assert.Equal((low, null), (One(low, null, -3).Sung, One(low, null, -3).OneSeries));
        Assert.Equal(series, One(low, null, 0, series).OneSeries);
        Assert.Null(One(low, null, 3, series).OneSeries);
        Assert.Null(One(null, low, 3, series).OneSeries);
        Assert.Equal(series, One(null, null, 0, series, Separability.NotSeparable).OneSeries);
        Assert.Null(One(low, null, 0, null, Separability.NotSeparable).OneSeries);
    }
}
