using BrassVox.Analysis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Where two pitches are hard to read: levels, hum, missing fundamentals, jumps, undeclared notes, a second channel.</summary>
public sealed class DuetTrackerHardCasesTests
{
    private const int RateHz = 16_000;
    private const double Bb1 = 58.2705;
    private const double Bb2 = 116.5409;
    private const double F3 = 174.6141;

    [Theory]
    [InlineData(-12.0)]
    [InlineData(12.0)]
    public void One_tone_12_dB_under_the_other_is_measured(double sungDb)
    {
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 0.5, _ => 117.3, 0.1),
            TestTone.Harmonic(RateHz, 0.5, _ => 173.9, 0.1 * Math.Pow(10.0, sungDb / 20.0), seed: 2),
            TestTone.Noise(RateHz, 0.5, 0.001, 3));
        Assert.All(TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, F3)), x => AssertPair(x, 117.3, 173.9, 5.0));
    }

    // Mains hum of 50 Hz with its harmonics, 20 dB under the tones.
    [Fact]
    public void Mains_hum_does_not_pull()
    {
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 0.5, _ => 117.3, 0.2),
            TestTone.Harmonic(RateHz, 0.5, _ => 173.9, 0.15, seed: 2),
            TestTone.Harmonic(RateHz, 0.5, _ => 50.0, 0.02, topHz: 400, seed: 3));
        Assert.All(TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, F3)), x => AssertPair(x, 117.3, 173.9, 5.0));
    }

    // A small microphone hears nothing of Bb1's first two partials.
    [Fact]
    public void A_fundamental_that_the_microphone_does_not_carry_is_still_found()
    {
        float[] full = TestTone.Harmonic(RateHz, 0.5, _ => Bb1, 0.3);
        Random random = new(1);
        double first = 2.0 * Math.PI * random.NextDouble();
        double second = 2.0 * Math.PI * random.NextDouble();
        float[] thin = [.. full.Select((x, i) => (float)(x
            - (0.3 * Math.Cos((2.0 * Math.PI * Bb1 * i / RateHz) + first))
            - (0.15 * Math.Cos((4.0 * Math.PI * Bb1 * i / RateHz) + second))))];
        float[] sound = TestTone.Sum(thin, TestTone.Harmonic(RateHz, 0.5, _ => 146.1, 0.2, seed: 2));
        Assert.All(TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb1, 146.832)), x => AssertPair(x, Bb1, 146.1, 3.0));
    }

    // Without declared notes: P steady, S with a voice's wander; every frame right or empty, and most are right.
    [Theory]
    [InlineData(116.54, 174.0)]
    [InlineData(58.3, 98.6)]
    [InlineData(174.6, 220.9)]
    [InlineData(87.3, 233.9)]
    public void Undeclared_tones_are_found_and_never_change_roles(double playedHz, double sungHz)
    {
        double Wander(double t) => Cents.Above(sungHz, (12.0 * Math.Sin(2.0 * Math.PI * 3.1 * t)) + (9.0 * Math.Sin(2.0 * Math.PI * 5.3 * t)));
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 1.2, _ => playedHz, 0.2),
            TestTone.Harmonic(RateHz, 1.2, Wander, 0.15, dbPerOctave: -9.0, seed: 2),
            TestTone.Noise(RateHz, 1.2, 0.003, 3));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Free);
        Assert.True(frames.Count(x => x.Played is not null && x.Sung is not null) > 0.8 * frames.Count);
        Assert.All(frames.Where(x => x.Played is not null), x => Assert.InRange(Cents.Between(playedHz, x.Played!.Value.FrequencyHz), -10.0, 10.0));
        Assert.All(frames.Where(x => x.Sung is not null), x => Assert.InRange(Cents.Between(sungHz, x.Sung!.Value.FrequencyHz), -40.0, 40.0));
    }

    // A vibrato that turns about once within a long window: half of that shows it. Both pitches in at least nine frames of ten.
    [Theory]
    [InlineData(196.0, 5.0)]
    [InlineData(293.7, 6.0)]
    public void A_wide_vibrato_is_measured(double sungHz, double rateHz)
    {
        double Sung(double t) => Cents.Above(sungHz, 35.0 * Math.Sin(2.0 * Math.PI * rateHz * t));
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 1.2, _ => Bb2, 0.2),
            TestTone.Harmonic(RateHz, 1.2, Sung, 0.15, dbPerOctave: -9.0, seed: 2),
            TestTone.Noise(RateHz, 1.2, 0.002, 3));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, sungHz));
        int right = frames.Count(x => x.Played is { } p && Math.Abs(Cents.Between(Bb2, p.FrequencyHz)) < 10.0
            && x.Sung is { } s && Math.Abs(Cents.Between(Sung(x.CentreSeconds), s.FrequencyHz)) < 15.0);
        Assert.True(right >= 0.9 * frames.Count, $"{right} of {frames.Count} frames");
    }

    // A dark vowel holds mainly even partials: its octave must not be told as the sung tone.
    [Fact]
    public void An_undeclared_vowel_of_even_partials_is_told_right_or_not_at_all()
    {
        const double sungHz = 196.0;
        double[] levelsDb = [-13.0, 0.0, -17.0, -6.0, -22.0, -14.0];
        float[] sound = TestTone.Sum(
            [TestTone.Harmonic(RateHz, 1.5, _ => 2.0 * Bb2, 0.2),
            .. levelsDb.Select((db, i) => TestTone.Sine(RateHz, 1.5, (i + 1) * sungHz, 0.15 * Math.Pow(10.0, 0.05 * db))),
            TestTone.Noise(RateHz, 1.5, 0.0005, 3)]);
        foreach (AnalysisFrame frame in TakeMeasurement.Frames(sound, RateHz, DuetPrior.Free))
        {
            foreach (PitchEstimate? tone in new[] { frame.Played, frame.Sung, frame.RolesOpen?.Lower, frame.RolesOpen?.Upper })
            {
                Assert.True(
                    tone is not { } told || Math.Abs(Cents.Between(sungHz, told.FrequencyHz)) < 25.0 || Math.Abs(Cents.Between(2.0 * Bb2, told.FrequencyHz)) < 25.0,
                    $"{tone} at {frame.CentreSeconds} s");
            }
        }
    }

    // The voice leaps an octave up: the new pitch within 200 ms (one window and the next search), the played tone throughout.
    [Fact]
    public void A_leap_of_the_moving_tone_is_followed_without_gluing_to_the_old_octave()
    {
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 1.6, _ => Bb2, 0.2),
            TestTone.Harmonic(RateHz, 1.6, t => t < 0.8 ? 146.0 : 292.0, 0.15, topHz: 2500, seed: 2));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, new DuetPrior(Bb2, 146.0, SungMoves: true));
        Assert.All(frames.Where(x => x.CentreSeconds < 0.7), x => AssertPair(x, Bb2, 146.0, 2.0));
        Assert.All(frames.Where(x => x.CentreSeconds > 1.0), x => AssertPair(x, Bb2, 292.0, 2.0));
    }

    // At the unison one channel cannot tell; a contact microphone settles S.
    [Fact]
    public void A_contact_channel_settles_the_sung_pitch_at_the_unison()
    {
        const double sungHz = 117.9;
        float[] voice = TestTone.Harmonic(RateHz, 0.6, _ => sungHz, 0.15, seed: 2);
        float[] air = TestTone.Sum(TestTone.Harmonic(RateHz, 0.6, _ => Bb2, 0.2), voice);
        float[] throat = TestTone.Sum([.. voice.Select(x => 0.5f * x)], [.. air.Select(x => 0.02f * x)]);
        DuetTracker tracker = new(RateHz, DuetPrior.Held(Bb2, Bb2));
        List<AnalysisFrame> frames = [];
        tracker.Push(air, throat, frames);
        Assert.NotEmpty(frames);
        Assert.All(frames, x => Assert.InRange(Cents.Between(sungHz, x.Sung!.Value.FrequencyHz), -3.0, 3.0));
        Assert.Throws<ArgumentException>(() => tracker.Push(air, throat.AsSpan(1), frames));
    }

    private static void AssertPair(AnalysisFrame frame, double playedHz, double sungHz, double cents)
    {
        Assert.InRange(Cents.Between(playedHz, frame.Played!.Value.FrequencyHz), -cents, cents);
        Assert.InRange(Cents.Between(sungHz, frame.Sung!.Value.FrequencyHz), -cents, cents);
    }
}
