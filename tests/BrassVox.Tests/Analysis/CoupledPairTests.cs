using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Pairs whose voice opens and shuts the flow: lines at mP+nS beside the harmonics. Truth is how the sound is made.</summary>
public sealed class CoupledPairTests
{
    private const int RateHz = 16_000;
    private const double Bb2 = 116.5409;
    private const double F3 = 174.6141;
    private const double G3 = 195.9977;

    // Weak fundamentals and a broad top, as a tuba and a dark vowel have them; ours.
    private static readonly double[] PlayedDb = [-12.0, 0.0, -6.0, -6.0, -19.0, -19.0, -19.0, -21.0, -23.0, -25.0];
    private static readonly double[] SungDb = [-7.0, -7.0, -17.0, -31.0, -33.0];

    // A just fifth is 1.955 cents wider than an equal one (exact), so 12 cents leave 3P and 2S 2.03 Hz apart.
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.6)]
    public void Near_a_just_fifth_the_report_tells_pitches_and_beats_of_the_pair(double depth)
    {
        double sung = Cents.Above(F3, 12.0);
        float[] sound = Coupled(Bb2, sung, depth, 5.0);
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, F3));
        Assert.Equal(12.0, ToneReport.Of(sound, frames, VoiceRole.Sung, F3)!.OffsetCents!.Value, 0.2);
        Assert.Equal(0.0, ToneReport.Of(sound, frames, VoiceRole.Played, Bb2)!.OffsetCents!.Value, 0.2);
        PairReport pair = PairReport.Of(sound, frames);
        Assert.Equal((2.0 * sung) - (3.0 * Bb2), pair.Beats.Single(x => x is { PlayedHarmonic: 3, SungHarmonic: 2 }).RateHz, 0.05);
        Assert.Equal(Cents.Between(Bb2, sung), pair.IntervalCents!.Value, 0.2);
    }

    // Their lines all lie on a common root: it must not be told as a tone.
    [Theory]
    [InlineData(Bb2, G3, 0.6)]
    [InlineData(Bb2, G3, 0.9)]
    [InlineData(Bb2, G3, 1.2)]
    [InlineData(87.3071, 97.9989, 0.6)]
    [InlineData(116.5409, 293.6648, 0.9)]
    [InlineData(58.2705, 97.9989, 0.6)]
    [InlineData(Bb2, F3, 0.6)]
    [InlineData(87.3071, 155.5635, 0.6)]
    [InlineData(87.3071, 146.8324, 0.6)]
    public void An_undeclared_coupled_pair_is_told_right_or_not_at_all(double played, double sung, double depth)
    {
        float[] sound = Coupled(played, sung, depth, 2.0);
        foreach (AnalysisFrame frame in TakeMeasurement.Frames(sound, RateHz, DuetPrior.Free))
        {
            Assert.True(IsNear(frame.Played, played), $"P {frame.Played} at {frame.CentreSeconds} s");
            Assert.True(IsNear(frame.Sung, sung), $"S {frame.Sung} at {frame.CentreSeconds} s");
        }
    }

    // An octave to which a voice is still on its way.
    [Theory]
    [InlineData(0.8, 2.2, 1.5)]
    [InlineData(3.0, 0.5, 1.5)]
    [InlineData(3.0, 1.0, 3.0)]
    public void Beats_whose_rate_changes_are_told_right_or_not_at_all(double fromHz, double toHz, double seconds)
    {
        double Beats(double t) => fromHz + ((toHz - fromHz) * t / seconds);
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, seconds, _ => Bb2, 0.2, topHz: 3000),
            TestTone.Harmonic(RateHz, seconds, t => (2.0 * Bb2) + Beats(t), 0.12, topHz: 3000, seed: 2));
        foreach (AnalysisFrame frame in TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, 2.0 * Bb2)).Where(x => x.BeatRateHz is not null))
        {
            // As the accuracy benchmark counts it: within 0.2 of the truth at that moment, or of the last second's mean.
            double off = Math.Min(
                Math.Abs(frame.BeatRateHz!.Value - Beats(frame.CentreSeconds)), Math.Abs(frame.BeatRateHz.Value - Beats(frame.CentreSeconds - 0.5)));
            Assert.InRange(off, 0.0, 0.2);
        }
    }

    private static bool IsNear(PitchEstimate? tone, double hz) => tone is not { } told || Math.Abs(Cents.Between(hz, told.FrequencyHz)) < 25.0;

    private static float[] Coupled(double played, double sung, double depth, double seconds)
    {
        float[] p = Tone(played, seconds, 0.2, PlayedDb);
        float[] s = Tone(sung, seconds, 0.2, SungDb);
        float[] noise = TestTone.Noise(RateHz, seconds, 0.0005, 4);
        float peak = s.Max(Math.Abs);
        return [.. p.Select((x, i) => (float)(x * (1.0 + (depth * s[i] / peak))) + s[i] + noise[i])];
    }

    private static float[] Tone(double hz, double seconds, double amplitude, double[] levelsDb) => TestTone.Sum(
        [.. levelsDb.Select((db, i) => TestTone.Sine(RateHz, seconds, (i + 1) * hz, amplitude * Math.Pow(10.0, 0.05 * db)))]);
}
