using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

public sealed class ReportTests
{
    private const int RateHz = 16_000;
    private const double Bb2 = 116.5409;
    private const double F3 = 174.6141;

    // Our own aim: +-30 cents at 5.5 Hz shift the centre by at most 3 cents; rate and width within 5 %.
    [Theory]
    [InlineData(5.5, 30.0)]
    [InlineData(4.5, 20.0)]
    [InlineData(6.5, 45.0)]
    public void Vibrato_is_told_and_leaves_the_centre(double rate, double width)
    {
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 2.0, _ => Bb2, 0.2),
            TestTone.Harmonic(RateHz, 2.0, t => Cents.Above(F3, 7.0 + (width * Math.Sin(2.0 * Math.PI * rate * t))), 0.15, seed: 2));
        ToneReport report = ToneReport.Of(sound, Frames(sound), VoiceRole.Sung, F3)!;
        Assert.InRange(report.OffsetCents!.Value, 4.0, 10.0);
        Assert.InRange(report.Vibrato!.Value.RateHz, 0.95 * rate, 1.05 * rate);
        Assert.InRange(report.Vibrato.Value.WidthCents, 0.95 * width, 1.05 * width);
        Assert.InRange(report.SpreadCents, 0.0, 0.2 * width);
    }

    [Fact]
    public void Drift_offset_onset_and_level_are_as_made()
    {
        float[] sung = TestTone.Harmonic(RateHz, 2.0, t => Cents.Above(F3, -12.0 + (10.0 * (t - 1.15))), 0.1, seed: 2);
        Array.Clear(sung, 0, (int)(0.3 * RateHz));
        float[] sound = TestTone.Sum(TestTone.Harmonic(RateHz, 2.0, _ => Bb2, 0.1), sung);
        IReadOnlyList<AnalysisFrame> frames = Frames(sound);
        ToneReport report = ToneReport.Of(sound, frames, VoiceRole.Sung, F3)!;
        Assert.Equal(0.3, report.OnsetSeconds, 0.02);

        // Measured from 450 ms to the last window's centre less 150 ms: 1.77 s, 1.32 s long.
        Assert.Equal(10.0 * 1.32, report.DriftCents, 1.0);
        Assert.Equal(-12.4, report.OffsetCents!.Value, 0.5);
        Assert.Null(report.Vibrato);
        Assert.InRange(report.SpreadCents, 0.0, 0.5);

        // The sum of squares of 1/k, 22 and 34 terms, within 0.1 dB of pi^2/6: both tones as loud.
        Assert.Equal(0.0, PairReport.Of(sound, frames).BalanceDb!.Value, 0.5);
    }

    // Coupled as physics has it: the voice modulates the flow, lines at S - P and S + P (JOB 2); a plain sum has none.
    [Fact]
    public void Sum_and_difference_lines_are_found_with_their_levels_only_where_they_are()
    {
        const double depth = 0.4;
        const double gb3 = 184.9972;
        float[] played = TestTone.Harmonic(RateHz, 1.0, _ => Bb2, 0.2);
        float[] sung = TestTone.Harmonic(RateHz, 1.0, _ => gb3, 0.1, seed: 2);
        float[] noise = TestTone.Noise(RateHz, 1.0, 0.001, 4);
        float[] coupled = [.. played.Select((x, i) => (float)(x * (1.0 + (depth * Math.Cos(2.0 * Math.PI * gb3 * i / RateHz)))))];
        DuetPrior prior = DuetPrior.Held(Bb2, gb3);
        float[] sum = TestTone.Sum(played, sung, noise);
        PairReport apart = PairReport.Of(sum, TakeMeasurement.Frames(sum, RateHz, prior));
        Assert.All(apart.Resultants, x => Assert.InRange(x.LevelDbfs, -200.0, -60.0));
        Assert.True(apart.CouplingDb is null or < -40.0);

        float[] joinedSound = TestTone.Sum(coupled, sung, noise);
        PairReport joined = PairReport.Of(joinedSound, TakeMeasurement.Frames(joinedSound, RateHz, prior));
        SoundingResultant difference = joined.Resultants.Single(x => x.Line.Name == "S-P");
        Assert.Equal(gb3 - Bb2, difference.Line.FrequencyHz, 0.05);

        // Half the depth times P's first partial: 0.2 * 0.4 / 2 = 0.04, -28 dB.
        Assert.Equal(20.0 * Math.Log10(0.04), difference.LevelDbfs, 1.0);
        Assert.Contains(joined.Resultants, x => x.Line.Name == "P+S");
        Assert.InRange(joined.CouplingDb!.Value, -16.0, -6.0);
        Assert.Contains(joined.Beats, x => x is { PlayedHarmonic: 8, SungHarmonic: 5 });
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(8.0)]
    [InlineData(-15.0)]
    public void Pull_is_recovered(double centsPerSemitone)
    {
        double Bend(double t) => 60.0 * Math.Sin(2.0 * Math.PI * 0.5 * t);
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 2.5, t => Cents.Above(Bb2, (0.01 * centsPerSemitone * Bend(t)) + (2.0 * t)), 0.2),
            TestTone.Harmonic(RateHz, 2.5, t => Cents.Above(F3, 35.0 + Bend(t)), 0.15, seed: 2));
        Pull pull = Pull.Of(TakeMeasurement.Frames(sound, RateHz, new DuetPrior(Bb2, F3, SungMoves: true)), VoiceRole.Sung)!.Value;
        Assert.Equal(centsPerSemitone, pull.CentsPerSemitone, Math.Max(1.0, 0.2 * Math.Abs(centsPerSemitone)));
    }

    [Fact]
    public void Nothing_heard_gives_no_report()
    {
        IReadOnlyList<AnalysisFrame> frames = Frames(new float[RateHz]);
        Assert.Null(ToneReport.Of(new float[RateHz], frames, VoiceRole.Played, Bb2));
        Assert.Null(Pull.Of(frames, VoiceRole.Sung));
        Assert.Null(PairReport.Of(new float[RateHz], frames).IntervalCents);
    }

    private static IReadOnlyList<AnalysisFrame> Frames(float[] sound) => TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, F3));
}
