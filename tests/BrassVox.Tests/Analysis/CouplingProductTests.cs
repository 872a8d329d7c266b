using BrassVox.Analysis;
using BrassVox.Analysis.Tracking;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>What modulation makes of two tones is told from a third tone, and the pair is found among its own coupling lines.</summary>
public sealed class CouplingProductTests
{
    private const int RateHz = 6_000;
    private const double PlayedHz = 147.0;
    private const double SungHz = 257.0;
    private const double ThirdHz = 318.0;

    // (1 + d v) p holds p and d v p: the second is the product of the two series (an identity).
    [Fact]
    public void The_product_of_two_series_is_taken_and_a_third_tone_stays()
    {
        (double before, double after) = Foreign(Coupled(RateHz, 0.5, 0.4));
        Assert.True(after < 0.1 * before, $"product: {after} of {before}");

        (before, after) = Foreign(TestTone.Sum(Coupled(RateHz, 0.5, 0.0), TestTone.Sine(RateHz, 0.5, ThirdHz, 0.05)));
        Assert.True(after > 0.8 * before, $"third tone: {after} of {before}");
    }

    [Fact]
    public void An_undeclared_voice_a_quarter_as_strong_is_found_under_its_coupling_lines()
    {
        const int rateHz = 48_000;
        float[] sound = TestTone.Sum(Coupled(rateHz, 1.0, 0.4), TestTone.Noise(rateHz, 1.0, 0.0005, 4));
        AnalysisFrame[] frames = [.. TakeMeasurement.Frames(sound, rateHz, DuetPrior.Free).Where(frame => frame.CentreSeconds > 0.15)];
        int right = 0;
        foreach (AnalysisFrame frame in frames.Where(frame => frame.Separability == Separability.Separable))
        {
            (double lower, double upper) = frame.RolesOpen is var (a, b) ? (a.FrequencyHz, b.FrequencyHz) : Ordered(frame.Played!.Value.FrequencyHz, frame.Sung!.Value.FrequencyHz);
            Assert.InRange(Cents.Between(PlayedHz, lower), -10.0, 10.0);
            Assert.InRange(Cents.Between(SungHz, upper), -10.0, 10.0);
            right++;
        }

        Assert.True(right > 0.9 * frames.Length, $"{right} of {frames.Length}");
    }

    private static (double, double) Ordered(double a, double b) => a < b ? (a, b) : (b, a);

    private static float[] Coupled(int rateHz, double seconds, double depth)
    {
        float[] played = TestTone.Harmonic(rateHz, seconds, _ => PlayedHz, 0.5, topHz: 1500.0);
        float[] sung = TestTone.Harmonic(rateHz, seconds, _ => SungHz, 0.5, topHz: 1500.0, seed: 2);
        return [.. played.Zip(sung, (p, v) => (float)((p * (1.0 + (2.0 * depth * v))) + (0.25 * v)))];
    }

    // Power that stands out of what the fit of the two tones leaves, before and after the product is taken.
    private static (double Before, double After) Foreign(float[] sound)
    {
        WindowSpectrum spectrum = new(961, RateHz, PairSearch.TopHz);
        PairSearch search = new(spectrum);
        Residual residual = new(spectrum);
        spectrum.Take(sound.AsSpan(600, 961));
        search.Explained(PlayedHz, SungHz, PairSearch.TopHz, amplitudes: true);
        residual.Take(search.Lines);
        search.Lines.Restore(spectrum);

        // Counted with no coupling line forgiven: both pitches so high that none falls into the band.
        double before = residual.ForeignPower(5_000.0, 50_000.0, 50.0, 1_000.0);
        residual.TakeProduct(search.Lines, PlayedHz, SungHz);
        return (before, residual.ForeignPower(5_000.0, 50_000.0, 50.0, 1_000.0));
    }
}
