using BrassVox.Analysis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>A held pair that sounds an octave or twelfth from its declared place is told where it sounds; a coupled one is never moved.</summary>
public sealed class HeldOctaveTests
{
    private const int RateHz = 16_000;
    private const double Bb1 = 58.2705;
    private const double F2 = 87.3071;
    private const double Bb2 = 116.5409;
    private const double F3 = 174.6141;
    private const double LastsSeconds = 0.4;

    // Until it has lasted for a while a pair is told there or not at all. A tone below its declared place has to hold a third of the sound: with less it could be coupling, and is told at the octave.
    [Theory]
    [InlineData(Bb2, F3, Bb1, F2)]
    [InlineData(Bb2, F3, Bb1, F3)]
    [InlineData(Bb2, F3, Bb2, F2)]
    [InlineData(Bb2, 3.0 * 92.4986, Bb2, 92.4986)]
    [InlineData(Bb1, F2, Bb2, F3)]
    [InlineData(Bb2, F2, Bb2, F3)]
    public void The_octave_that_sounds_is_told(double playedHz, double sungHz, double declaredPlayedHz, double declaredSungHz)
    {
        double p = Cents.Above(playedHz, 9.0);
        double s = Cents.Above(sungHz, -14.0);
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 0.8, _ => p, 0.2),
            TestTone.Harmonic(RateHz, 0.8, _ => s, 0.25, seed: 2),
            TestTone.Noise(RateHz, 0.8, 0.002, 3));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(declaredPlayedHz, declaredSungHz));
        Assert.All(frames.Where(frame => frame.CentreSeconds < LastsSeconds && frame.Separability == Separability.Separable), IsWhereItSounds);
        Assert.True(frames.Count(frame => frame.CentreSeconds >= LastsSeconds) > 20);
        Assert.All(frames.Where(frame => frame.CentreSeconds >= LastsSeconds), IsWhereItSounds);

        void IsWhereItSounds(AnalysisFrame frame)
        {
            Assert.InRange(Cents.Between(p, frame.Played!.Value.FrequencyHz), -5.0, 5.0);
            Assert.InRange(Cents.Between(s, frame.Sung!.Value.FrequencyHz), -5.0, 5.0);
        }
    }

    /// <summary>What a room hums while nobody plays says nothing of the octave: a note that then comes as it is declared is told as soon as the window holds it.</summary>
    [Theory]
    [InlineData(29.1352, 43.6535)]
    [InlineData(43.6535, 65.4064)]
    [InlineData(58.2705, 110.0)]
    public void A_pair_that_comes_out_of_silence_is_told_at_once(double playedHz, double sungHz)
    {
        const double comes = 1.5;
        float[] sound = TestTone.Sum(
            [.. new float[(int)(comes * RateHz)], .. TestTone.Harmonic(RateHz, 1.0, _ => playedHz, 0.2)],
            [.. new float[(int)(comes * RateHz)], .. TestTone.Harmonic(RateHz, 1.0, _ => sungHz, 0.2, seed: 2)],
            TestTone.Noise(RateHz, comes + 1.0, 0.002, 3));
        AnalysisFrame[] frames = [.. TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(playedHz, sungHz)).Where(frame => frame.CentreSeconds is > comes + 0.09 and < comes + 0.9)];
        Assert.True(frames.Length > 70);
        Assert.All(frames, frame => Assert.Equal(Separability.Separable, frame.Separability));
    }

    /// <summary>The player holds alone for a while before the voice comes, as it is declared.</summary>
    [Fact]
    public void A_voice_that_joins_in_its_place_is_told_at_once()
    {
        const double comes = 2.0;
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, comes + 1.0, _ => Bb2, 0.2),
            [.. new float[(int)(comes * RateHz)], .. TestTone.Harmonic(RateHz, 1.0, _ => 1.47 * Bb2, 0.15, seed: 2)],
            TestTone.Noise(RateHz, comes + 1.0, 0.002, 3));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, 1.47 * Bb2));
        Assert.All(frames.Where(frame => frame.CentreSeconds is > 0.1 and < comes - 0.1), frame => Assert.Equal(Separability.OneTone, frame.Separability));
        Assert.All(frames.Where(frame => frame.CentreSeconds is > comes + 0.2 and < comes + 0.9), frame => Assert.Equal(Separability.Separable, frame.Separability));
    }

    // Lines at mP+nS of a just pair are a series on a lower root: no reason to move either tone there.
    [Theory]
    [InlineData(3.0 / 2.0, 0.3)]
    [InlineData(3.0 / 2.0, 1.0)]
    [InlineData(4.0 / 3.0, 1.0)]
    [InlineData(5.0 / 4.0, 1.0)]
    [InlineData(5.0 / 2.0, 1.0)]
    [InlineData(6.0 / 5.0, 1.0)]
    public void A_coupled_pair_is_never_moved(double ratio, double depth)
    {
        double s = ratio * Bb2;
        float[] played = TestTone.Harmonic(RateHz, 0.8, _ => Bb2, 0.2);
        float[] coupled = [.. played.Select((x, i) => (float)(x * (1.0 + (depth * Math.Cos(2.0 * Math.PI * s * i / RateHz)))))];
        float[] sound = TestTone.Sum(coupled, TestTone.Harmonic(RateHz, 0.8, _ => s, 0.12, seed: 2), TestTone.Noise(RateHz, 0.8, 0.001, 3));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, s));
        Assert.True(frames.Count(frame => frame.Played is not null) > 0.5 * frames.Count, $"{frames.Count(frame => frame.Played is not null)} of {frames.Count} told");
        foreach (AnalysisFrame frame in frames)
        {
            Assert.True(frame.Played is null || Math.Abs(Cents.Between(Bb2, frame.Played.Value.FrequencyHz)) < 10.0, $"P at {frame.Played?.FrequencyHz}");
            Assert.True(frame.Sung is null || Math.Abs(Cents.Between(s, frame.Sung.Value.FrequencyHz)) < 10.0, $"S at {frame.Sung?.FrequencyHz}");
        }
    }

    /// <summary>A voice an octave under what is declared, coupled: its odd partials lie on no line that the declared pair could make.</summary>
    [Theory]
    [InlineData(0.3)]
    [InlineData(0.6)]
    public void A_coupled_voice_an_octave_too_low_is_told_where_it_sounds(double depth)
    {
        float[] played = TestTone.Harmonic(RateHz, 1.2, _ => Bb2, 0.2);
        float[] sung = TestTone.Harmonic(RateHz, 1.2, _ => F2, 0.12, seed: 2);
        float peak = sung.Max(Math.Abs);
        float[] sound = TestTone.Sum([.. played.Select((x, i) => (float)(x * (1.0 + (depth * sung[i] / peak))))], sung, TestTone.Noise(RateHz, 1.2, 0.001, 3));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb2, F3));
        Assert.All(frames, frame => Assert.True(frame.Sung is null || Math.Abs(Cents.Between(F2, frame.Sung.Value.FrequencyHz)) < 10.0, $"S at {frame.Sung?.FrequencyHz}"));
        Assert.True(frames.Count(frame => frame.Sung is not null) > 0.5 * frames.Count, $"{frames.Count(frame => frame.Sung is not null)} of {frames.Count} told");
    }

    // A soft dark vowel a just fifth under the played tone: all that coupling makes lies on the root of both. Levels as in a recording.
    [Theory]
    [InlineData(0.3, 1)]
    [InlineData(0.3, 2)]
    [InlineData(0.6, 1)]
    [InlineData(0.6, 2)]
    public void A_dark_vowel_coupled_at_the_fifth_is_not_told_an_octave_up(double depth, int seed)
    {
        const double D4 = 293.6648;
        const double s = D4 / 1.5;
        float[] played = Partials(D4, [1.0, 0.361, 0.061, 0.016, 0.007, 0.002], seed);
        float[] sung = Partials(s, [0.155, 1.0, 0.164, 0.154, 0.013, 0.007], seed + 10);
        float[] sound = TestTone.Sum(
            [.. played.Select((x, i) => (float)(0.1 * x * (1.0 + (depth * sung[i]))))], [.. sung.Select(x => 0.025f * x)], TestTone.Noise(RateHz, 1.2, 0.0005, 3));
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(D4, s));
        Assert.True(frames.Count(frame => frame.Sung is not null) > 0.8 * frames.Count, $"{frames.Count(frame => frame.Sung is not null)} of {frames.Count} told");
        Assert.All(frames, frame => Assert.True(frame.Sung is null || Math.Abs(Cents.Between(s, frame.Sung.Value.FrequencyHz)) < 50.0, $"S at {frame.Sung?.FrequencyHz}"));

        static float[] Partials(double hz, double[] levels, int seed)
        {
            Random random = new(seed);
            double[] phases = [.. levels.Select(_ => Math.Tau * random.NextDouble())];
            return [.. Enumerable.Range(0, (int)(1.2 * RateHz)).Select(i => (float)levels.Select((a, k) => a * Math.Sin((Math.Tau * (k + 1) * hz * i / RateHz) + phases[k])).Sum())];
        }
    }

    // A pair declared as it sounds, its voice rich or poor, at every interval from the third to the twelfth.
    [Fact]
    public void A_pair_in_its_declared_place_stays_there()
    {
        for (int semitones = 3; semitones <= 19; semitones++)
        {
            foreach (double slope in new[] { -3.0, -12.0 })
            {
                double s = Cents.Above(Bb1, 100.0 * semitones);
                float[] sound = TestTone.Sum(
                    TestTone.Harmonic(RateHz, 0.3, _ => Bb1, 0.2),
                    TestTone.Harmonic(RateHz, 0.3, _ => s, 0.12, dbPerOctave: slope, seed: semitones),
                    TestTone.Noise(RateHz, 0.3, 0.002, 3));
                Assert.All(TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(Bb1, s)), frame =>
                {
                    Assert.True(frame.Played is null || Math.Abs(Cents.Between(Bb1, frame.Played.Value.FrequencyHz)) < 100.0, $"{semitones}: P at {frame.Played?.FrequencyHz}");
                    Assert.True(frame.Sung is null || Math.Abs(Cents.Between(s, frame.Sung.Value.FrequencyHz)) < 100.0, $"{semitones}: S at {frame.Sung?.FrequencyHz}");
                });
            }
        }
    }
}
