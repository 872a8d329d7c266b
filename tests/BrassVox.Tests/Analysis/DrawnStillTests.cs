using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Pairs that hold still and tones that swing, as sounds of a few partials at 6 kHz with frames that were drawn. No outside source: the truth is the drawing.</summary>
public sealed class DrawnStillTests
{
    private const int RateHz = 6_000;
    private const int WindowSamples = 960;
    private const double PlayedHz = 116.0;
    private const double SungHz = 174.4;

    private static readonly double[] Falling = [1, 0.5, 0.333, 0.25, 0.2, 0.167, 0.143, 0.125];

    private static AnalysisFrame Frame(int hundredths, double? playedHz, double? sungHz) => new(
        (60L * hundredths) - (WindowSamples / 2), WindowSamples, RateHz, -20,
        playedHz is { } p ? new PitchEstimate(p, -20, 1) : null, sungHz is { } s ? new PitchEstimate(s, -20, 1) : null, null,
        (playedHz, sungHz) switch { (null, null) => Separability.Silent, (null, _) or (_, null) => Separability.OneTone, _ => Separability.Separable });

    private static AnalysisFrame[] Frames(double seconds, Func<int, (double? Played, double? Sung)> at) =>
        [.. Enumerable.Range(8, (int)(100 * seconds) - 16).Select(i => Frame(i, at(i).Played, at(i).Sung))];

    private static float[] Lines(double seconds, params (Func<double, double> Hz, Func<double, double> Amplitude)[] lines)
    {
        float[] sound = new float[(int)(seconds * RateHz)];
        foreach ((Func<double, double> hz, Func<double, double> amplitude) in lines)
        {
            double turn = 0.1;
            for (int n = 0; n < sound.Length; n++)
            {
                double t = (double)n / RateHz;
                sound[n] += (float)(amplitude(t) * Math.Cos(2 * Math.PI * turn));
                turn += hz(t) / RateHz;
            }
        }

        return sound;
    }

    private static (Func<double, double> Hz, Func<double, double> Amplitude) Line(double hz, double amplitude = 0.1) => (_ => hz, _ => amplitude);

    private static float[] Tone(double seconds, double hz, double[]? partials = null) => Lines(seconds, [.. (partials ?? Falling).Select((a, i) => Line((i + 1) * hz, 0.1 * a))]);

    // S is steady in all of them, but for where it is said.
    private static readonly float[] Sung = Tone(10, SungHz);

    private static (double PlayedHz, double SungHz)? Still(float[] played, double saidCents = 2, double seconds = 8, double sungHz = SungHz) =>
        StillPair.Of(
            TestTone.Sum(played.AsSpan(0, (int)(seconds * RateHz)).ToArray(), sungHz == SungHz ? Sung : Tone(seconds, sungHz)),
            Frames(seconds, _ => (Cents.Above(PlayedHz, saidCents), Cents.Above(sungHz, saidCents))));

    private static readonly float[] Played = Tone(10, PlayedHz);

    /// <summary>A fifth that is 0.8 Hz out where 3 P meets 2 S, held for 8 s; what single windows say of it is up to some cents off.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(-2)]
    public void A_still_pair_is_told_to_a_fiftieth_of_a_cent(double saidCents)
    {
        (double playedHz, double sungHz) = Still(Played, saidCents)!.Value;
        Assert.Equal(0, Cents.Between(PlayedHz, playedHz), 0.02);
        Assert.Equal(0, Cents.Between(SungHz, sungHz), 0.02);
        AnalysisFrame[] frames = Frames(8, _ => (Cents.Above(PlayedHz, saidCents), Cents.Above(SungHz, saidCents)));
        float[] sound = TestTone.Sum(Played, Sung)[..(8 * RateHz)];
        Assert.Equal(0, ToneReport.Of(sound, frames, VoiceRole.Played, PlayedHz)!.OffsetCents!.Value, 0.02);
        Assert.Equal(0, ToneReport.Of(sound, frames, VoiceRole.Sung, SungHz)!.OffsetCents!.Value, 0.02);
        Assert.Equal(PlayedHz, ToneReport.Of(sound, frames, VoiceRole.Played)!.CentreHz, 0.002);

        // Without the sound it is what the frames said.
        Assert.Equal(saidCents, ToneReport.Of([], frames, VoiceRole.Played, PlayedHz)!.OffsetCents!.Value, 1e-6);
    }

    /// <summary>Beats at 0.8 a second take three widths of a window of half the stretch; windows that are 14 c off heard something else, those 5 to 10 c off may be drawn to the just interval.</summary>
    [Fact]
    public void A_short_pair_is_left_to_single_windows()
    {
        Assert.Null(Still(Played, saidCents: 0, seconds: 7.4));
        Assert.NotNull(Still(Played, saidCents: 0, seconds: 7.8));
        Assert.NotNull(Still(Played, saidCents: 8));
        Assert.NotNull(Still(Played, saidCents: -8));
        Assert.Null(Still(Played, saidCents: 14));
        Assert.Null(Still(Played, saidCents: -14));

        // Nothing beats within the reach of one window: single windows do as well.
        Assert.Null(Still(Played, sungHz: 170.52));
        Assert.Null(StillPair.Of(new float[RateHz], Frames(1, _ => (PlayedHz, null))));
        Assert.Null(StillPair.Of([], []));
        Assert.Null(StillPair.Of(new float[8 * RateHz], [Frame(20, PlayedHz, SungHz)]));
    }

    /// <summary>Nine frames in ten have to hold both tones.</summary>
    [Theory]
    [InlineData(12, false)]
    [InlineData(8, true)]
    public void Both_tones_are_there_nearly_all_of_the_time(int without, bool isTold) =>
        Assert.Equal(isTold, StillPair.Of(TestTone.Sum(Played, Sung), Frames(10, i => (PlayedHz, i is < 20 or > 970 || i % 100 >= without ? SungHz : null))) is not null);

    /// <summary>Of a longer stretch its middle 8 s count: what P does before and after does not.</summary>
    [Fact]
    public void The_middle_of_a_long_stretch_counts()
    {
        float[] bent = Lines(10, [.. Falling.Select((a, i) => ((Func<double, double>)(t => (i + 1) * (t is < 0.9 or > 9.1 ? 119 : PlayedHz)), (Func<double, double>)(_ => 0.1 * a)))]);
        Assert.Equal(PlayedHz, StillPair.Of(TestTone.Sum(bent, Sung), Frames(10, _ => (PlayedHz, SungHz)))!.Value.PlayedHz, 0.001);
        float[] early = Lines(10, [.. Falling.Select((a, i) => ((Func<double, double>)(t => (i + 1) * (t < 4 ? 119 : PlayedHz)), (Func<double, double>)(_ => 0.1 * a)))]);
        Assert.Null(StillPair.Of(TestTone.Sum(early, Sung), Frames(10, _ => (PlayedHz, SungHz))));
        float[] late = Lines(10, [.. Falling.Select((a, i) => ((Func<double, double>)(t => (i + 1) * (t > 6 ? 119 : PlayedHz)), (Func<double, double>)(_ => 0.1 * a)))]);
        Assert.Null(StillPair.Of(TestTone.Sum(late, Sung), Frames(10, _ => (PlayedHz, SungHz))));
    }

    /// <summary>Five windows of half the stretch lie a second apart: a tone that dies away by less than 1.4 over four seconds is steady.</summary>
    [Theory]
    [InlineData(1.3, true)]
    [InlineData(1.5, false)]
    [InlineData(1 / 1.3, true)]
    [InlineData(1 / 1.5, false)]
    public void A_steady_line_keeps_its_level(double times, bool isTold) =>
        Assert.Equal(isTold, Still(Lines(8, [.. Falling.Select((a, i) => ((Func<double, double>)(_ => (i + 1) * PlayedHz), (Func<double, double>)(t => 0.1 * a * Math.Pow(times, -t / 4))))])) is not null);

    /// <summary>A lone line that glides by b Hz a second turns by 2 pi 1.5 b more or less than on the mean: 0.4 is the most.</summary>
    [Theory]
    [InlineData(0.037, true)]
    [InlineData(-0.037, true)]
    [InlineData(0.047, false)]
    [InlineData(-0.047, false)]
    public void A_steady_line_keeps_its_pitch(double slope, bool isTold) =>
        Assert.Equal(isTold, Still(Lines(8, (t => PlayedHz + (slope * (t - 4)), _ => 0.1)), saidCents: 0) is not null);

    /// <summary>
    /// Partials weigh as their power times the square of their number. Of a second partial that is d Hz sharp and has amplitude a, a window of x s
    /// reads a K(x d), K(u) = sin(pi u) / (pi u) / (1 - u^2): it counts 4 (a K)^2 to 1 and moves P by its part of d / 2. Where that leaves either partial
    /// 0.1 Hz off or more, nothing is told; one of less than a hundredth of the power does not count.
    /// </summary>
    [Theory]
    [InlineData(1.0, 0.2, true)]
    [InlineData(1.0, -0.2, true)]
    [InlineData(1.0, 0.27, false)]
    [InlineData(1.0, -0.27, false)]
    [InlineData(0.5, 0.12, true)]
    [InlineData(0.5, 0.25, false)]
    [InlineData(0.09, 0.9, true)]
    public void Partials_count_as_they_decide(double amplitude, double sharpHz, bool isTold)
    {
        float[] played = Lines(8, Line(PlayedHz), Line((2 * PlayedHz) + sharpHz, 0.1 * amplitude));
        (double PlayedHz, double SungHz)? still = Still(played, saidCents: 0);
        Assert.Equal(isTold, still is not null);
        if (still is { } told)
        {
            double u = sharpHz * 3.915;
            double weight = amplitude < 0.1 ? 0 : 4 * Math.Pow(amplitude * Math.Sin(Math.PI * u) / (Math.PI * u) / (1 - (u * u)), 2);
            Assert.Equal(PlayedHz + (weight / (1 + weight) * sharpHz / 2), told.PlayedHz, 0.0005);
        }
    }

    /// <summary>
    /// Four fifths of a tone's power has to lie in steady lines. A second partial that ends half way is read by the five windows with 1, 0.909, 0.5, 0.091
    /// and 0 of its amplitude, with 0.417 of its power on the mean: a fifth of all for an amplitude of 0.774.
    /// </summary>
    [Theory]
    [InlineData(0.72, true)]
    [InlineData(0.83, false)]
    public void Nearly_all_of_a_tone_is_steady(double amplitude, bool isTold)
    {
        float[] played = Lines(8, Line(PlayedHz), (_ => 2 * PlayedHz, t => t < 4 ? 0.1 * amplitude : 0));
        Assert.Equal(isTold, Still(played, saidCents: 0) is not null);
    }

    private static double Scale(double shown, bool hasOther, double shift = 0, double louder = 1)
    {
        double turn = 0;
        float[] sound = new float[RateHz];
        for (int n = 0; n < sound.Length; n++)
        {
            double t = (double)n / RateHz;
            for (int k = 1; k <= 8; k++)
            {
                sound[n] += (float)((0.2 / k * Math.Cos((2 * Math.PI * k * turn) + (0.7 * k * k)))
                    + (hasOther ? louder * 0.4 / k * Math.Cos((2 * Math.PI * k * 133 * t) + (1.1 * k * k)) : 0));
            }

            turn += Cents.Above(200, 30 * Math.Sin(2 * Math.PI * 5.5 * t)) / RateHz;
        }

        PitchCurve curve = new(shift, 0, 0, 5.5, 0, shown, 0);
        SwingWindow[] windows = [.. Enumerable.Range(10, 80).Select(i => new SwingWindow(Frame(i, null, 200), shift + (i / 100.0), 200, hasOther ? 133 : null))];
        return SwingWidth.Scale(sound, windows, curve);
    }

    /// <summary>A tone that swings 30 c to each side at 5.5 a second, as 160 ms windows that show so much of it are told; another tone beside it or none.</summary>
    [Theory]
    [InlineData(20, 1.5, false)]
    [InlineData(15, 2.0, false)]
    [InlineData(28, 1.07, false)]
    [InlineData(20, 1.5, true)]
    public void A_swing_is_widened_to_what_the_sound_itself_swings(double shown, double scale, bool hasOther)
    {
        Assert.Equal(scale, Scale(shown, hasOther), hasOther ? 0.2 : 0.03);

        // The same on a clock of the curve that begins 3 s earlier.
        Assert.Equal(Scale(shown, hasOther), Scale(shown, hasOther, shift: 3), 1e-6);
    }

    /// <summary>A report reads the width of a swing from the sound: frames that show 20 c of 30 to either side are told as 30, from the tone's own stretch.</summary>
    [Fact]
    public void A_report_widens_the_swing_that_frames_show()
    {
        float[] sound = new float[2 * RateHz];
        double turn = 0;
        for (int n = 0; n < sound.Length; n++)
        {
            double t = (double)n / RateHz;
            for (int k = 1; k <= 8; k++)
            {
                sound[n] += (float)(0.2 / k * Math.Cos((2 * Math.PI * k * turn) + (0.7 * k * k)));
            }

            turn += Cents.Above(200, 30 * Math.Sin(2 * Math.PI * 5.5 * t)) / RateHz;
        }

        ToneReport report = ToneReport.Of(sound, Frames(2, i => (null, Cents.Above(200, 20 * Math.Sin(2 * Math.PI * 5.5 * i / 100.0)))), VoiceRole.Sung, 200)!;
        Assert.Equal(5.5, report.Vibrato!.Value.RateHz, 0.05);
        Assert.Equal(30, report.Vibrato.Value.WidthCents, 1.0);

        // 184 frames a hundredth of a second apart, 15 off at either end.
        Assert.Equal(1.54, report.MeasuredSeconds, 0.011);
        Assert.Equal(0.08, report.OnsetSeconds, 1e-9);
    }

    /// <summary>A tone beside it that is ten times louder does not make it swing more: harmonics that a wide swing would sweep over it are left out.</summary>
    [Fact]
    public void A_loud_tone_beside_it_does_not_widen_a_swing() => Assert.Equal(1.5, Scale(20, true, louder: 10), 0.3);

    [Fact]
    public void Without_a_sound_nothing_is_widened()
    {
        PitchCurve curve = new(0, 0, 0, 5.5, 0, 20, 0);
        Assert.Equal(1, SwingWidth.Scale([], [new SwingWindow(Frame(10, null, 200), 0.1, 200, null)], curve));
        Assert.Equal(1, SwingWidth.Scale(new float[RateHz], [], curve));
        Assert.Equal(1, SwingWidth.Scale(new float[RateHz], [new SwingWindow(Frame(0, null, 200), 0, 200, null)], curve));
    }
}
