using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Glides of the voice through the unison, octave and twelfth of a played tone that follows Adler's law.</summary>
/// <remarks>Source: R. Adler, A study of locking phenomena in oscillators, 1946 (from memory): phase' = distance - L sin phase.</remarks>
public sealed class CaptureZoneTests
{
    private const int RateHz = 8_000;
    private const double Bb2 = 116.5409;

    [Theory]
    [InlineData(1, 0.8, 0.0)]
    [InlineData(1, 1.6, 0.0)]
    [InlineData(2, 0.8, 0.0)]
    [InlineData(2, 2.0, 0.0)]
    [InlineData(2, 1.2, 6.0)]
    [InlineData(3, 1.5, 0.0)]
    [InlineData(3, 2.5, -5.0)]
    public void The_zone_is_recovered_within_5_cents(int harmonic, double lockHz, double playedOffsetCents)
    {
        double playedHz = Cents.Above(Bb2, playedOffsetCents);
        float[] sound = Glide(playedHz, harmonic, lockHz, 0.002);
        CaptureZone zone = Zone(sound, harmonic)!.Value;
        double half = 1200.0 * Math.Log2(1.0 + (lockHz / (harmonic * playedHz)));
        Assert.Equal((harmonic, 1), (zone.PlayedHarmonic, zone.SungHarmonic));
        Assert.True(zone.IsCaught, $"{zone}");
        Assert.InRange(zone.LowCents, -half - 5.0, -half + 5.0);
        Assert.InRange(zone.HighCents, half - 5.0, half + 5.0);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Two_tones_that_do_not_hold_one_another_have_no_zone(int harmonic)
    {
        float[] sound = Glide(Bb2, harmonic, 0.0, 0.002);
        Assert.False(Zone(sound, harmonic) is { IsCaught: true });
    }

    [Fact]
    public void A_voice_that_passes_no_meeting_gives_no_zone()
    {
        float[] sound = TestTone.Sum(
            TestTone.Harmonic(RateHz, 3.0, _ => Bb2, 0.2),
            TestTone.Harmonic(RateHz, 3.0, t => Cents.Above(Bb2, 400.0 + (50.0 * t)), 0.15, seed: 2));
        Assert.Null(CaptureZone.Of(sound, TakeMeasurement.Frames(sound, RateHz, new DuetPrior(Bb2, 1.26 * Bb2, SungMoves: true))));
        Assert.Null(CaptureZone.Of([], []));
    }

    private static CaptureZone? Zone(float[] sound, int harmonic) => CaptureZone.Of(
        sound, TakeMeasurement.Frames(sound, RateHz, new DuetPrior(Bb2, harmonic * Bb2, SungMoves: true, SungLowestHz: 90.0, SungHighestHz: 500.0)));

    // Sixteen seconds, from 160 cents under the meeting to 160 above; the played phase obeys the law, step by step.
    private static float[] Glide(double playedHz, int harmonic, double lockHz, double noiseRms)
    {
        const double seconds = 16.0;
        float[] sound = TestTone.Noise(RateHz, seconds, noiseRms, 5);
        double played = 0.0;
        double sung = 0.37;
        for (int i = 0; i < sound.Length; i++)
        {
            double voice = 0.0;
            double horn = 0.0;
            for (int k = 1; k <= 12; k++)
            {
                horn += 0.2 / k * Math.Cos((2.0 * Math.PI * k * played) + (0.7 * k * k));
                voice += 0.12 / k * Math.Cos((2.0 * Math.PI * k * sung) + (1.1 * k * k));
            }

            sound[i] += (float)(horn + voice);
            double sungHz = Cents.Above(harmonic * playedHz, 20.0 * ((double)i / RateHz) - 160.0);
            double phase = 2.0 * Math.PI * ((harmonic * played) - sung);
            played += (playedHz - (lockHz / harmonic * Math.Sin(phase))) / RateHz;
            sung += sungHz / RateHz;
        }

        return sound;
    }
}
