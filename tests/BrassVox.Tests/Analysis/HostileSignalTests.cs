using BrassVox.Analysis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Sounds that hold no tone give no exception and no pitch.</summary>
public sealed class HostileSignalTests
{
    private const int RateHz = 48_000;

    public static TheoryData<string> Signals =>
        ["zeros", "constant", "one step", "quiet noise", "full noise", "click", "clicks", "not a number", "infinite", "clipped noise"];

    [Theory]
    [MemberData(nameof(Signals))]
    public void No_tone_gives_no_pitch(string name)
    {
        float[] sound = Make(name);
        foreach (DuetPrior prior in new[] { DuetPrior.Held(116.54, 174.61), DuetPrior.Held(58.27, 116.54), DuetPrior.Free })
        {
            IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, prior);
            Assert.NotEmpty(frames);
            Assert.All(frames, frame =>
            {
                Assert.Null(frame.Played);
                Assert.Null(frame.Sung);
                Assert.Null(frame.BeatRateHz);
                Assert.True(double.IsFinite(frame.LevelDbfs));
                Assert.Equal(Separability.Silent, frame.Separability);
            });
        }
    }

    // The lowest rate of a file and the highest of common devices.
    [Theory]
    [InlineData(8_000)]
    [InlineData(192_000)]
    public void No_rate_makes_a_pitch_of_noise_or_of_a_constant(int rateHz)
    {
        float[] noise = TestTone.Noise(rateHz, 0.4, 0.3, 21);
        float[] clipped = [.. noise.Select(x => Math.Clamp(10f * x, -1f, 1f))];
        float[] constant = new float[noise.Length];
        Array.Fill(constant, 1f);
        foreach (float[] sound in new[] { noise, clipped, constant, new float[noise.Length] })
        {
            foreach (DuetPrior prior in new[] { DuetPrior.Held(116.54, 174.61), new DuetPrior(116.54, 174.61, SungMoves: true), DuetPrior.Free })
            {
                Assert.All(TakeMeasurement.Frames(sound, rateHz, prior), frame => Assert.Equal((null, null), (frame.Played, frame.Sung)));
            }
        }
    }

    // Driven far into clipping a pair keeps its pitches: what is told is right or not told.
    [Theory]
    [InlineData(8_000)]
    [InlineData(48_000)]
    public void A_clipped_pair_is_told_right_or_not_at_all(int rateHz)
    {
        float[] pair = TestTone.Sum(TestTone.Harmonic(rateHz, 0.5, _ => 117.0, 0.6, topHz: 3000.0), TestTone.Harmonic(rateHz, 0.5, _ => 174.0, 0.5, topHz: 3000.0, seed: 2));
        float[] clipped = [.. pair.Select(x => Math.Clamp(2f * x, -1f, 1f))];
        foreach (AnalysisFrame frame in TakeMeasurement.Frames(clipped, rateHz, DuetPrior.Held(116.54, 174.61)))
        {
            Assert.True(frame.Played is null || Math.Abs(Cents.Between(117.0, frame.Played.Value.FrequencyHz)) < 10.0, $"P {frame.Played?.FrequencyHz}");
            Assert.True(frame.Sung is null || Math.Abs(Cents.Between(174.0, frame.Sung.Value.FrequencyHz)) < 10.0, $"S {frame.Sung?.FrequencyHz}");
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(100)]
    public void Too_short_a_take_gives_no_frame(int samples) =>
        Assert.Empty(TakeMeasurement.Frames(new float[samples], RateHz, DuetPrior.Free));

    // Half a second of nothing, then a tone.
    [Fact]
    public void A_tone_after_silence_is_found_and_the_silence_stays_empty()
    {
        float[] tone = TestTone.Harmonic(RateHz, 0.5, _ => 233.08, 0.2);
        float[] sound = [.. new float[RateHz / 2], .. tone];
        IReadOnlyList<AnalysisFrame> frames = TakeMeasurement.Frames(sound, RateHz, DuetPrior.Held(233.08, 349.23));
        Assert.All(frames.Where(x => x.CentreSeconds < 0.41), x => Assert.Null(x.Played));
        Assert.All(frames.Where(x => x.CentreSeconds > 0.59), x => Assert.InRange(x.Played!.Value.FrequencyHz, 233.01, 233.15));
    }

    private static float[] Make(string name)
    {
        const double seconds = 0.4;
        float[] sound = name switch
        {
            "quiet noise" => TestTone.Noise(RateHz, seconds, 0.01, 11),
            "full noise" => TestTone.Noise(RateHz, seconds, 0.3, 12),
            "clipped noise" => [.. TestTone.Noise(RateHz, seconds, 3.0, 13).Select(x => Math.Clamp(x, -1f, 1f))],
            "one step" => [.. TestTone.Noise(RateHz, seconds, 1.0, 14).Select(x => MathF.Sign(x) / 32768f)],
            _ => new float[(int)(seconds * RateHz)],
        };
        switch (name)
        {
            case "constant":
                Array.Fill(sound, 0.25f);
                break;
            case "click":
                sound[sound.Length / 2] = 1f;
                break;
            case "clicks":
                sound[sound.Length / 3] = 1f;
                sound[sound.Length / 2] = -1f;
                break;
            case "not a number":
                Array.Fill(sound, float.NaN);
                break;
            case "infinite":
                Array.Fill(sound, float.PositiveInfinity);
                break;
            default:
                break;
        }

        return sound;
    }
}
