using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>What reports make of pitches that were drawn, without a sound. No outside source but where one is named: the truth is the drawing.</summary>
public sealed class DrawnReportTests
{
    private const int RateHz = 16_000;
    private const int WindowSamples = 2_560;

    private static PitchCurve Fit(int count, Func<double, double> cents, double from = 0) =>
        PitchCurve.Fit([.. Enumerable.Range(0, count).Select(i => from + (0.01 * i))], [.. Enumerable.Range(0, count).Select(i => cents(from + (0.01 * i)))]);

    [Fact]
    public void A_curve_is_centre_drift_swing_and_rest()
    {
        // 2 s about 2 s: 5 c there, 4 c a second, 30 c at 5 a second.
        PitchCurve curve = Fit(201, t => 5 + (4 * (t - 2)) + (30 * Math.Sin(2 * Math.PI * 5 * (t - 2))), from: 1);
        Assert.Equal(2, curve.MiddleSeconds, 9);
        Assert.Equal(5, curve.CentreCents, 6);
        Assert.Equal(4, curve.SlopeCentsPerSecond, 6);
        Assert.Equal(5, curve.RateHz, 6);
        Assert.Equal(0, curve.CosineCents, 6);
        Assert.Equal(30, curve.SineCents, 6);
        Assert.Equal(30, curve.ShownCents, 6);
        Assert.Equal(0, curve.SpreadCents, 6);

        // A twentieth of a second on, a quarter of a swing: 5 + 0.2 + twice 30.
        Assert.Equal(65.2, curve.CentsAt(2.05, 2), 6);
        PitchCurve cosine = Fit(201, t => 12 * Math.Cos(2 * Math.PI * 5 * (t - 1)));
        Assert.Equal((12.0, 0.0), (Math.Round(cosine.CosineCents, 6), Math.Round(cosine.SineCents, 6)));
    }

    [Theory]
    [InlineData(2.9, false)]
    [InlineData(3.1, true)]
    public void A_swing_is_3_cents_or_wider(double cents, bool swings)
    {
        PitchCurve curve = Fit(201, t => cents * Math.Sin(2 * Math.PI * 5 * t));
        Assert.Equal(swings, curve.RateHz > 0);
        Assert.Equal(swings ? 0 : cents / Math.Sqrt(2), curve.SpreadCents, 0.02);
    }

    [Theory]
    [InlineData(9.5, true)]
    [InlineData(10.5, false)]
    public void A_swing_explains_half_of_what_moves(double other, bool swings) =>
        Assert.Equal(swings, Fit(401, t => (10 * Math.Sin(2 * Math.PI * 5 * t)) + (other * Math.Sin(2 * Math.PI * 14 * t))).RateHz > 0);

    [Theory]
    [InlineData(2.6, false)]
    [InlineData(3.0, true)]
    [InlineData(9.0, true)]
    [InlineData(9.4, false)]
    public void A_swing_has_3_to_9_a_second(double hz, bool swings) => Assert.Equal(swings, Fit(601, t => 20 * Math.Sin(2 * Math.PI * hz * t)).RateHz > 0);

    /// <summary>Three swings of the fastest take a third of a second.</summary>
    [Theory]
    [InlineData(33, false)]
    [InlineData(37, true)]
    public void A_swing_is_three_swings(int points, bool swings) => Assert.Equal(swings, Fit(points, t => 20 * Math.Cos(2 * Math.PI * 8.8 * t)).RateHz > 0);

    private static AnalysisFrame Frame(int hundredths, double? playedHz, double? sungHz, double playedDb = -20, double sungDb = -20, double? beats = null, Separability? separability = null) => new(
        (160L * hundredths) - (WindowSamples / 2), WindowSamples, RateHz, -20,
        playedHz is { } p ? new PitchEstimate(p, playedDb, 1) : null, sungHz is { } s ? new PitchEstimate(s, sungDb, 1) : null, beats,
        separability ?? ((playedHz, sungHz) switch { (null, null) => Separability.Silent, (null, _) or (_, null) => Separability.OneTone, _ => Separability.Separable }));

    private static AnalysisFrame[] Frames(int from, int to, Func<int, AnalysisFrame> at) => [.. Enumerable.Range(from, to - from).Select(at)];

    [Fact]
    public void A_tone_is_reported_without_its_first_and_last_150_ms()
    {
        // Heard from 0.50 s to 2.49 s, 8 c a second about -12 c at 1.5 s; its first and last 150 ms are 300 c off.
        AnalysisFrame[] frames = Frames(0, 300, i => Frame(i, null, i is >= 50 and < 250 ? Cents.Above(200, i is < 65 or > 234 ? 300 : -12 + (0.08 * (i - 150))) : null, sungDb: -17));
        ToneReport report = ToneReport.Of([], frames, VoiceRole.Sung, 200)!;
        Assert.Equal(0.5, report.OnsetSeconds, 6);
        Assert.Equal(-17, report.LevelDbfs, 6);

        // 170 frames from 0.65 s to 2.34 s; the middle lies at 1.495 s.
        Assert.Equal(1.7, report.MeasuredSeconds, 0.011);
        Assert.Equal(8 * 1.69, report.DriftCents, 0.09);
        Assert.Equal(-12.04, report.OffsetCents!.Value, 0.05);
        Assert.Equal(200 * Math.Pow(2, report.OffsetCents.Value / 1200), report.CentreHz, 9);
        Assert.Equal(0, report.SpreadCents, 6);
        Assert.Null(report.Vibrato);
        Assert.Null(ToneReport.Of([], frames, VoiceRole.Sung)!.OffsetCents);
        Assert.Null(ToneReport.Of([], frames, VoiceRole.Played, 200));
    }

    [Theory]
    [InlineData(39, false)]
    [InlineData(42, true)]
    public void A_report_takes_a_tenth_of_a_second_between_the_ends(int heard, bool isTold) =>
        Assert.Equal(isTold, ToneReport.Of([], Frames(0, heard, i => Frame(i, 100, null)), VoiceRole.Played, 100) is not null);

    /// <summary>From -40 to -20 dB within a frame: 6.02 dB under -20 is passed after 0.699 of it.</summary>
    [Fact]
    public void A_tone_begins_where_it_passes_half_its_amplitude()
    {
        ToneReport report = ToneReport.Of([], Frames(0, 200, i => Frame(i, i < 30 ? null : 100, null, playedDb: i < 50 ? -40 : -20)), VoiceRole.Played, 100)!;
        Assert.Equal(0.49 + (0.01 * 13.98 / 20), report.OnsetSeconds, 6);
    }

    /// <summary>Single windows that took an octave for the tone do not move it; a tone that swings 30 c is no stray.</summary>
    [Fact]
    public void Strays_are_left_out()
    {
        ToneReport report = ToneReport.Of([], Frames(0, 300, i => Frame(i, Cents.Above(100, i % 10 == 0 ? 1200 : 7), null)), VoiceRole.Played, 100)!;
        Assert.Equal(7, report.OffsetCents!.Value, 3);
        Assert.Equal(0, report.SpreadCents, 3);
        Assert.Equal(0.9 * 2.7, report.MeasuredSeconds, 0.03);
        ToneReport swinging = ToneReport.Of([], Frames(0, 300, i => Frame(i, Cents.Above(100, 30 * Math.Sin(2 * Math.PI * 5 * i / 100.0)), null)), VoiceRole.Played, 100)!;
        Assert.Equal(5, swinging.Vibrato!.Value.RateHz, 0.03);
        Assert.Equal(30, swinging.Vibrato.Value.WidthCents, 0.5);
    }

    /// <summary>A tone that is read now in one octave, now in another keeps the figures of the one it was read in most; a glide through an octave stays whole.</summary>
    [Fact]
    public void Other_octaves_are_told_beside_the_tone()
    {
        ToneReport report = ToneReport.Of([], Frames(0, 300, i => Frame(i, Cents.Above(100, i < 110 ? 7 - 1200 : i is > 150 and < 160 ? 2407 : 7), null)), VoiceRole.Played, 100)!;
        Assert.Equal(7, report.OffsetCents!.Value, 3);
        Assert.Equal((-1, 104.0 / 270), (report.OtherOctave, Math.Round(report.OtherOctaveShare, 12)), (a, b) => a.Item1 == b.Item1 && Math.Abs(a.Item2 - b.Item2) < 1e-9);
        ToneReport glide = ToneReport.Of([], Frames(0, 300, i => Frame(i, Cents.Above(100, 6 * i), null)), VoiceRole.Played, 100)!;
        Assert.Equal((0, 0.0), (glide.OtherOctave, glide.OtherOctaveShare));
        Assert.Equal(6 * 269, glide.DriftCents, 1);

        // A stray on the way to the other octave: the way back is as long as the way there.
        ToneReport stray = ToneReport.Of([], Frames(0, 300, i => Frame(i, Cents.Above(100, i == 100 ? 704 : i is > 100 and < 130 ? 1200 : 0), null)), VoiceRole.Played, 100)!;
        Assert.Equal((1, 0), (stray.OtherOctave, stray.OffsetCents!.Value), (a, b) => a.Item1 == b.Item1 && Math.Abs(a.Item2 - b.Item2) < 1e-3);
        Assert.InRange(stray.OtherOctaveShare, 0.09, 0.12);
    }

    /// <summary>A tone begins where it was missing just before; where nobody could tell what sounded, it may have been there.</summary>
    [Theory]
    [InlineData(0, Separability.Silent, false)]
    [InlineData(60, Separability.Silent, true)]
    [InlineData(60, Separability.OneTone, true)]
    [InlineData(60, Separability.NotSeparable, false)]
    public void An_onset_is_heard_where_the_tone_was_missing(int from, Separability before, bool isHeard)
    {
        AnalysisFrame[] frames = Frames(0, 300, i => i >= from ? Frame(i, 100, 150) : Frame(i, null, before == Separability.OneTone ? 150 : null, separability: i > from - 12 ? Separability.NotSeparable : before));
        ToneReport report = ToneReport.Of([], frames, VoiceRole.Played, 100)!;
        Assert.Equal(0.01 * from, report.OnsetSeconds, 9);
        Assert.Equal(isHeard, report.IsOnsetHeard);
    }

    private static Pull? PullOf(Func<double, double> moved, Func<double, double> held, VoiceRole moving = VoiceRole.Sung, int count = 200) => Pull.Of(Frames(0, count, i =>
    {
        double one = Cents.Above(200, moved(i / 100.0));
        double other = Cents.Above(100, held(i / 100.0));
        return moving == VoiceRole.Sung ? Frame(i, other, one) : Frame(i, one, other);
    }), moving);

    [Theory]
    [InlineData(0.08, VoiceRole.Sung)]
    [InlineData(-0.15, VoiceRole.Sung)]
    [InlineData(0.08, VoiceRole.Played)]
    public void A_bend_that_draws_the_other_along_is_told_per_semitone_whatever_drifts(double share, VoiceRole moving)
    {
        // A drift of the held tone of its own, 20 c a second, is no pull.
        double Bend(double t) => 60 * Math.Sin(2 * Math.PI * t);
        Pull pull = PullOf(Bend, t => (share * Bend(t)) + (20 * t), moving)!.Value;
        Assert.Equal(100 * share, pull.CentsPerSemitone, 6.0);
        Assert.Equal(Math.Sign(share), Math.Sign(pull.CentsPerSemitone));
        Assert.Equal(200, pull.Frames);

        // A sine lies over sin(81 degrees) of its height for a twentieth of the time at each side.
        Assert.Equal(2 * 60 * Math.Sin(Math.PI * 0.45), pull.MovedCents, 0.5);
    }

    [Fact]
    public void Of_a_straight_glide_the_two_lines_are_compared()
    {
        Pull pull = PullOf(t => 100 * t, t => 6 * t)!.Value;
        Assert.Equal(6, pull.CentsPerSemitone, 6);
        Assert.Equal(180, pull.MovedCents, 1.1);
    }

    [Theory]
    [InlineData(200, 29, false)]
    [InlineData(200, 35, true)]
    [InlineData(19, 3000, false)]
    [InlineData(20, 3000, true)]
    public void A_pull_takes_a_fifth_of_a_second_and_30_cents(int frames, double centsOverAll, bool isTold) =>
        Assert.Equal(isTold, PullOf(t => centsOverAll * t / 2, _ => 0, count: frames) is not null);

    [Fact]
    public void The_pair_is_told_by_medians_and_shares()
    {
        // S a fifth and 5 c over P, 4 dB louder; a quarter of the sounding frames in fog, beating at 3.
        AnalysisFrame[] frames = Frames(0, 100, i => i < 20 ? Frame(i, null, null) : i < 40 ? Frame(i, null, null, beats: 3, separability: Separability.NotSeparable) : Frame(i, 100, Cents.Above(150, 5 + (i == 70 ? 700 : 0)), -20, -16));
        PairReport report = PairReport.Of([], frames);
        Assert.Equal(Cents.Between(2, 3) + 5, report.IntervalCents!.Value, 6);
        Assert.Equal(4, report.BalanceDb!.Value, 6);
        Assert.Equal(3, report.SwellHz);
        Assert.Equal(0.75, report.SeparableShare, 9);
        Assert.Empty(report.Resultants);
        Assert.Null(report.CouplingDb);

        // 3 P against 2 S: 300 (2^(5/1200) - 1).
        BeatingPair beats = Assert.Single(report.Beats, pair => pair is { PlayedHarmonic: 3, SungHarmonic: 2 });
        Assert.Equal(300 * (Math.Pow(2, 5 / 1200.0) - 1), beats.RateHz, 6);
        PairReport fog = PairReport.Of([], Frames(0, 40, i => Frame(i, null, null, beats: 3, separability: Separability.NotSeparable)));
        Assert.Equal((null, null, 3.0, 0.0), (fog.IntervalCents, fog.BalanceDb, fog.SwellHz, fog.SeparableShare));
        Assert.Equal(0, PairReport.Of([], Frames(0, 40, i => Frame(i, null, null))).SeparableShare);
    }

    /// <summary>Two harmonics, the lower steady at 232 Hz, the upper 30 c a second through it at 4 s.</summary>
    [Fact]
    public void Two_harmonics_pass_one_another_as_their_slopes_say()
    {
        GlideMeeting meeting = new(4, 232, 0, 232, 30, 116);
        Assert.Equal(0, meeting.DistanceAt(4), 9);
        Assert.Equal(232 * (Math.Pow(2, 30 / 1200.0) - 1), meeting.DistanceAt(5), 9);
        Assert.Equal(232 * (1 + Math.Pow(2, 30 / 1200.0)) / 2, meeting.MiddleAt(5), 9);
        Assert.Equal((meeting.DistanceAt(4.001) - meeting.DistanceAt(3.999)) / 0.002, meeting.SlopeHz, 1e-5);
        Assert.Equal(-10 / 30.0, new GlideMeeting(4, 232, 10, 232, 0, 116).SlopeHz / meeting.SlopeHz, 9);
    }

    // Dips as Adler's law has them: the phase, by steps of a thousandth of a second, passes whole beats.
    private static double[] Dips(GlideMeeting meeting, double centreHz, double halfHz, double from = 0, double to = 8)
    {
        List<double> dips = [];
        double beats = 0;
        for (double t = from; t < to; t += 0.001)
        {
            double distance = meeting.DistanceAt(t) - centreHz;
            double before = beats;
            beats += 0.001 * Math.Sqrt(Math.Max(0, (distance * distance) - (halfHz * halfHz)));
            if (Math.Floor(beats) > Math.Floor(before))
            {
                dips.Add(t);
            }
        }

        return [.. dips];
    }

    /// <summary>Source: R. Adler 1946 (from memory): outside the zone the beats go as sqrt(d^2 - L^2).</summary>
    [Theory]
    [InlineData(0.0, 0.0, false, 30)]
    [InlineData(0.0, 1.5, true, 30)]
    [InlineData(0.6, 2.0, true, 30)]
    [InlineData(-0.6, 2.0, true, -30)]
    public void The_zone_is_what_explains_when_the_beats_fell(double centre, double half, bool isCaught, double slope)
    {
        GlideMeeting meeting = new(4, 232, 0, 232, slope, 116);
        LockFit fit = LockFit.Of(Dips(meeting, centre, half), meeting)!.Value;
        Assert.Equal(isCaught, fit.IsCaught);
        Assert.Equal(centre, fit.CentreHz, 0.11);
        if (isCaught)
        {
            Assert.Equal(half, fit.HalfHz, 0.11);
        }
    }

    [Fact]
    public void A_zone_takes_three_beats_on_either_side()
    {
        GlideMeeting meeting = new(4, 232, 0, 232, 30, 116);
        double[] all = Dips(meeting, 0, 1.5);
        double[] below = [.. all.Where(t => t < 4)];
        double[] above = [.. all.Where(t => t > 4)];
        Assert.NotNull(LockFit.Of([.. below.TakeLast(3), .. above.Take(3)], meeting));
        Assert.Null(LockFit.Of([.. below.TakeLast(2), .. above.Take(3)], meeting));
        Assert.Null(LockFit.Of(above, meeting));

        // Beats that fall anyhow follow no law.
        Assert.Null(LockFit.Of([0.1, 0.2, 0.3, 3.0, 3.9, 4.2, 4.3, 4.4, 7.5, 7.6], meeting));
    }

    [Theory]
    [InlineData(5.0, 0.0, 3.0, 1.0)]
    [InlineData(-5.0, 0.0, 3.0, -1.0)]
    [InlineData(2.0, 0.0, 3.0, 2.0)]
    [InlineData(6.0, 1.0, 3.0, 1.0)]
    public void Within_the_zone_a_tone_is_drawn_all_the_way_and_outside_by_what_the_beats_lack(double distance, double centre, double half, double drawn) =>
        Assert.Equal(drawn, new LockFit(centre, half, true).DrawnHz(distance), 9);

    /// <summary>Two steady lines that pass one another beat as |d|: dips lie a whole beat apart.</summary>
    [Fact]
    public void Dips_are_where_two_passing_lines_cancel()
    {
        const int rate = 4_000;
        GlideMeeting meeting = new(3, 232, 0, 232, 30, 116);
        double played = 0, sung = 0.5;
        float[] sound = new float[6 * rate];
        double[] apart = new double[sound.Length];
        for (int i = 0; i < sound.Length; i++)
        {
            apart[i] = sung - played;
            sound[i] = (float)(Math.Cos(2 * Math.PI * played) + Math.Cos(2 * Math.PI * sung));
            played += 232.0 / rate;
            sung += Cents.Above(232, 30 * (((double)i / rate) - 3)) / rate;
        }

        double[] dips = BeatDips.Of(sound, rate, meeting);
        Assert.InRange(dips.Length, 10, 40);
        // Where they meet the beat stands still and turns; there a dip is no cancelling.
        Assert.All(dips.Where(at => Math.Abs(at - 3) > 0.3), at =>
        {
            double turn = apart[(int)(at * rate)] - 0.5;
            Assert.Equal(0, turn - Math.Round(turn), 0.06);
        });

        // Every whole beat between the first and the last dip is among them.
        int whole = Enumerable.Range(1, apart.Length - 1).Count(i => i > dips[0] * rate && i <= dips[^1] * rate && Math.Floor(apart[i] - 0.5) != Math.Floor(apart[i - 1] - 0.5));
        Assert.InRange(whole - (dips.Length - 1), -2, 2);
        Assert.Empty(BeatDips.Of([.. Enumerable.Range(0, sound.Length).Select(i => (float)Math.Cos(2 * Math.PI * 232 * i / rate))], rate, meeting));
        Assert.Empty(BeatDips.Of(new float[100], rate, meeting));
    }

    // A plain sum of harmonics 1/k of P = 116 Hz and S = 185 Hz, and a line at S - P; read through windows every 10 ms.
    private static (float[] Sound, AnalysisFrame[] Frames) WithLine(double amplitude, double lineHz = 69, double noise = 0.003)
    {
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 1.0, _ => 116, 0.2), TestTone.Harmonic(RateHz, 1.0, _ => 185, 0.1, seed: 2),
            TestTone.Sine(RateHz, 1.0, lineHz, amplitude), TestTone.Noise(RateHz, 1.0, noise, 4));
        return (sound, Frames(10, 90, i => Frame(i, 116, 185)));
    }

    /// <summary>Hum stands beside where a resultant would, and two low tones leak into one another's difference: neither is a resultant.</summary>
    [Fact]
    public void Hum_and_what_leaks_from_the_tones_are_no_resultants()
    {
        foreach (double hum in (double[])[60, 50, 71])
        {
            Assert.Empty(ResultantMeter.Sounding(WithLine(0.01, hum, 0.0003).Sound, WithLine(0.01, hum).Frames, 116, 185, 3));
        }

        float[] low = TestTone.Sum(TestTone.Harmonic(RateHz, 1.0, _ => 41.2, 0.3), TestTone.Harmonic(RateHz, 1.0, _ => 61.7, 0.2, seed: 2));
        Assert.Empty(ResultantMeter.Sounding(low, Frames(10, 90, i => Frame(i, 41.2, 61.7)), 41.2, 61.7, 3));
    }

    [Fact]
    public void A_line_at_the_difference_is_told_with_its_level()
    {
        (float[] sound, AnalysisFrame[] frames) = WithLine(0.01);
        SoundingResultant line = Assert.Single(ResultantMeter.Sounding(sound, frames, 116, 185, 2));
        Assert.Equal("S-P", line.Line.Name);
        Assert.Equal(-40, line.LevelDbfs, 0.3);
        Assert.True(line.AboveNoiseDb > 20);
        Assert.Empty(ResultantMeter.Sounding(WithLine(0).Sound, frames, 116, 185, 2));
        Assert.Empty(ResultantMeter.Sounding(new float[100], frames, 116, 185, 2));

        // Both tones at -20 dB are -16.99 together; the line of order 2 lies 23 dB under that.
        Assert.Equal(-40 + 16.99, PairReport.Of(sound, frames).CouplingDb!.Value, 0.3);
    }

    /// <summary>Lines are told loudest first; the coupling is that of order 2 alone, by the sum of the powers: twice -40 dB against both tones' -16.99.</summary>
    [Fact]
    public void Coupling_is_what_the_two_lines_of_order_2_hold_together()
    {
        (float[] sound, AnalysisFrame[] frames) = WithLine(0.01);
        sound = TestTone.Sum(sound, TestTone.Sine(RateHz, 1.0, 301, 0.01), TestTone.Sine(RateHz, 1.0, 417, 0.03));
        PairReport report = PairReport.Of(sound, frames);
        Assert.Equal("2P+S", report.Resultants[0].Line.Name);
        Assert.Equal(-30.5, report.Resultants[0].LevelDbfs, 0.3);
        Assert.Equal(["P+S", "S-P"], report.Resultants.Where(line => line.Line.Order == 2).Select(line => line.Line.Name).Order(StringComparer.Ordinal));
        Assert.Equal(-36.99 + 16.99, report.CouplingDb!.Value, 0.3);
        Assert.True(report.Resultants.Zip(report.Resultants.Skip(1)).All(pair => pair.First.LevelDbfs >= pair.Second.LevelDbfs));
    }

    /// <summary>A line is told from 9 dB over the median beside it, between 20 and 2,000 Hz, where it is clear of harmonics by two widths of a window, 12.5 Hz.</summary>
    [Theory]
    [InlineData(116.0, 185.0, 69.0, 0.00060, true)]
    [InlineData(116.0, 185.0, 69.0, 0.00020, false)]
    [InlineData(116.0, 134.5, 18.5, 0.01, false)]
    [InlineData(116.0, 137.5, 21.5, 0.01, true)]
    [InlineData(116.0, 127.5, 11.5, 0.01, false)]
    [InlineData(1_020.0, 930.0, 1_950.0, 0.01, true)]
    [InlineData(1_050.0, 980.0, 2_030.0, 0.01, false)]
    [InlineData(116.0, 221.0, 105.0, 0.01, false)]
    [InlineData(116.0, 216.0, 100.0, 0.01, true)]
    [InlineData(105.0, 221.0, 116.0, 0.01, false)]
    public void A_line_stands_out_clear_of_harmonics(double playedHz, double sungHz, double lineHz, double amplitude, bool isTold)
    {
        // Noise of 0.003 reads as amplitudes with a mean square of 6 x 0.003^2 / 2560 through a Hann window, -76.8 dB; their median is 1.6 dB less.
        float[] sound = TestTone.Sum(TestTone.Sine(RateHz, 1.0, lineHz, amplitude), TestTone.Noise(RateHz, 1.0, 0.003, 4));
        AnalysisFrame[] frames = Frames(10, 90, i => Frame(i, playedHz, sungHz));
        Assert.Equal(isTold, ResultantMeter.Sounding(sound, frames, playedHz, sungHz, 2).Any(line => Math.Abs(line.Line.FrequencyHz - lineHz) < 1));
    }

    /// <summary>A line is followed along with the tones; frames that reach beyond the sound are left out, and one that is clear in less than half of them says nothing.</summary>
    [Fact]
    public void A_line_is_followed_from_frame_to_frame()
    {
        double At(double t) => 185 + (15 * t);
        float[] sound = TestTone.Sum(TestTone.Harmonic(RateHz, 1.5, t => At(t) - 116, 0.01, topHz: 90), TestTone.Noise(RateHz, 1.5, 0.001, 4));
        AnalysisFrame[] frames = Frames(10, 140, i => Frame(i, 116, At(i / 100.0)));
        SoundingResultant line = Assert.Single(ResultantMeter.Sounding(sound, frames, 116, At(0.75), 2));
        Assert.Equal(("S-P", -40.0), (line.Line.Name, Math.Round(line.LevelDbfs, 0)));
        Assert.Single(ResultantMeter.Sounding(sound, [.. frames, .. Frames(145, 200, i => Frame(i, 116, At(i / 100.0)))], 116, At(0.75), 2));
        Assert.Empty(ResultantMeter.Sounding(sound, [.. frames, .. Frames(145, 400, i => Frame(i, 116, At(i / 100.0)))], 116, At(0.75), 2));
    }

    /// <summary>Strays lie six times the median away: of a tone that jitters by 20 c to either side, 110 c still belongs to it and 140 c does not.</summary>
    [Theory]
    [InlineData(110, true)]
    [InlineData(140, false)]
    public void A_stray_is_judged_by_the_spread_of_the_tone(double cents, bool counts)
    {
        ToneReport report = ToneReport.Of([], Frames(0, 300, i => Frame(i, Cents.Above(100, i % 20 == 10 ? (i % 40 == 10 ? cents : -cents) : i % 4 is 0 or 1 ? 20 : -20), null)), VoiceRole.Played, 100)!;
        Assert.Equal(counts ? 2.71 : 0.95 * 2.7, report.MeasuredSeconds, 0.021);
    }

    /// <summary>Both tones swing, each is told with its own vibrato and level, whichever was asked for.</summary>
    [Fact]
    public void Each_tone_has_a_report_of_its_own()
    {
        AnalysisFrame[] frames = Frames(0, 300, i => Frame(i, Cents.Above(100, 30 * Math.Sin(2 * Math.PI * 4 * i / 100.0)), Cents.Above(185, 20 * Math.Sin(2 * Math.PI * 6 * i / 100.0)), -15, -25));
        ToneReport played = ToneReport.Of([], frames, VoiceRole.Played)!, sung = ToneReport.Of([], frames, VoiceRole.Sung)!;
        Assert.Equal((4.0, 30.0, -15.0), (Math.Round(played.Vibrato!.Value.RateHz, 1), Math.Round(played.Vibrato.Value.WidthCents), played.LevelDbfs));
        Assert.Equal((6.0, 20.0, -25.0), (Math.Round(sung.Vibrato!.Value.RateHz, 1), Math.Round(sung.Vibrato.Value.WidthCents), sung.LevelDbfs));
        Assert.Equal(0, Cents.Between(100, played.CentreHz), 0.5);
        Assert.Equal(0, Cents.Between(185, sung.CentreHz), 0.5);
        Assert.Equal((null, null), (played.OffsetCents, sung.OffsetCents));
    }

    /// <summary>A swell is told from 0.15 of its crests on: two lines of which the fainter has a tenth of the other swell by 0.18, by 0.05 less.</summary>
    [Theory]
    [InlineData(0.10, 30, true)]
    [InlineData(0.60, -30, true)]
    [InlineData(0.05, 30, false)]
    public void Dips_take_a_swell(double amplitude, double slope, bool areTold)
    {
        const int rate = 4_000;
        GlideMeeting meeting = new(3, 232, 0, 232, slope, 116);
        double[] apart = new double[6 * rate];
        float[] sound = new float[apart.Length];
        double played = 0, sung = 0.5;
        for (int i = 0; i < sound.Length; i++)
        {
            apart[i] = sung - played;
            sound[i] = (float)(Math.Cos(2 * Math.PI * played) + (amplitude * Math.Cos(2 * Math.PI * sung)));
            played += 232.0 / rate;
            sung += Cents.Above(232, slope * (((double)i / rate) - 3)) / rate;
        }

        double[] dips = BeatDips.Of(sound, rate, meeting);
        Assert.Equal(areTold, dips.Length > 0);

        // Beats are followed as far as 9 a second; within that each is there, where the two are half a turn apart.
        double reach = 9 / Math.Abs(meeting.SlopeHz);
        Assert.All(dips, at => Assert.InRange(Math.Abs(at - 3), 0, reach));
        Assert.All(dips.Where(at => Math.Abs(at - 3) > 0.5), at =>
        {
            double turn = apart[(int)Math.Round(at * rate)] - 0.5;
            Assert.Equal(0, turn - Math.Round(turn), 0.012);
        });
        if (areTold)
        {
            Assert.InRange(dips[0], 3 - reach, 3 - reach + 0.15);
            Assert.InRange(dips[^1], 3 + reach - 0.15, 3 + reach);
            Assert.InRange(dips.Length, 19, 21);
        }
    }
}
