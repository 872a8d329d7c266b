using BrassVox.Analysis;
using BrassVox.Analysis.Bounds;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>The tracker's error on two harmonic tones in white noise against the bound of Cramer and Rao.</summary>
/// <remarks>Source of the bound: see <see cref="CramerRao"/>. More pairs, 50, 100 and 160 ms at 10, 20 and 40 dB: benchmark <c>bounds</c>.</remarks>
public sealed class TrackerBoundTests
{
    private const int RateHz = 8_000;
    private const int Harmonics = 8;
    private const int Windows = 40;

    [Theory]
    [InlineData(58.2705, 87.5)]
    [InlineData(116.5409, 146.2)]
    [InlineData(116.5409, 174.0)]
    public void At_20_dB_the_error_is_within_twice_the_bound(double playedHz, double sungHz)
    {
        Random random = new(7);
        double played = 0.0;
        double sung = 0.0;
        for (int i = 0; i < Windows; i++)
        {
            HarmonicTone p = Tone(playedHz, random);
            HarmonicTone s = Tone(sungHz, random);
            double noiseRms = 0.1 * Math.Sqrt(p.Power + s.Power);
            DuetTracker tracker = new(RateHz, DuetPrior.Held(Cents.Above(playedHz, 15.0), Cents.Above(sungHz, -15.0)));
            float[] sound = TestTone.Sum(Sound(p, tracker.WindowSamples), Sound(s, tracker.WindowSamples), Noise(noiseRms, tracker.WindowSamples, random));
            PairBound bound = CramerRao.PairHz(p, s, noiseRms, RateHz, tracker.WindowSamples);
            List<AnalysisFrame> frames = [];
            tracker.Push(sound, frames);
            played += Math.Pow((frames[0].Played!.Value.FrequencyHz - playedHz) / bound.PlayedHz, 2.0) / Windows;
            sung += Math.Pow((frames[0].Sung!.Value.FrequencyHz - sungHz) / bound.SungHz, 2.0) / Windows;
        }

        // Under the bound it could lie by chance alone: 40 windows give the ratio within a quarter.
        Assert.InRange(Math.Sqrt(played), 0.7, 2.0);
        Assert.InRange(Math.Sqrt(sung), 0.7, 2.0);
    }

    private static HarmonicTone Tone(double hz, Random random) => new(
        hz,
        [.. Enumerable.Range(1, Harmonics).Select(k => 0.1 / k)],
        [.. Enumerable.Range(1, Harmonics).Select(_ => 2.0 * Math.PI * random.NextDouble())]);

    private static float[] Sound(HarmonicTone tone, int samples)
    {
        float[] sound = new float[samples];
        for (int n = 0; n < samples; n++)
        {
            double t = (n - (0.5 * (samples - 1))) / RateHz;
            for (int k = 1; k <= Harmonics; k++)
            {
                sound[n] += (float)(tone.Amplitudes[k - 1] * Math.Cos((2.0 * Math.PI * k * tone.FundamentalHz * t) + tone.PhasesRadians[k - 1]));
            }
        }

        return sound;
    }

    private static float[] Noise(double rms, int samples, Random random) =>
        TestTone.Noise(RateHz, (samples + 0.5) / RateHz, rms, random.Next());
}
