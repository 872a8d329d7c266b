using BrassVox.Analysis.Reports;
using Xunit;

namespace BrassVox.Tests.Analysis;

/// <summary>Recordings cut off at their loudest, and whole ones. No outside source: the truth is how they are made.</summary>
public sealed class FlatTopsTests
{
    private const int RateHz = 48_000;

    [Theory]
    [InlineData(0.7)]
    [InlineData(0.85)]
    public void A_cut_tone_is_told_once_a_peak(double cut)
    {
        float[] tone = TestTone.Harmonic(RateHz, 1.0, _ => 116, 0.5);
        float limit = (float)cut * tone.Max(Math.Abs);
        float[] late = [.. tone.Select((sample, i) => i < RateHz / 2 ? 0.5f * sample : Math.Clamp(sample, -limit, limit))];
        (int count, double first) = FlatTops.Of(late, RateHz);
        Assert.InRange(count, 40, 600);
        Assert.InRange(first, 0.5, 0.53);

        // As 16 bits keep it.
        Assert.Equal(count, FlatTops.Of([.. late.Select(sample => MathF.Round(sample * 32768) / 32768)], RateHz).Count, count / 20.0);
        Assert.Equal(0, FlatTops.Of([.. late.Select(sample => sample * 0.2f / limit)], RateHz).Count);
    }

    [Fact]
    public void Whole_tones_and_what_is_no_number_are_not_told()
    {
        foreach ((double hz, double amplitude) in ((double, double)[])[(29, 0.26), (30, 0.99), (116.5, 0.3), (440, 0.99)])
        {
            float[] sine = TestTone.Sine(RateHz, 1.0, hz, amplitude);
            Assert.Equal((0, 0.0), FlatTops.Of([.. sine.Select(sample => MathF.Round(sample * 32768) / 32768)], RateHz));
            Assert.Equal(0, FlatTops.Of(TestTone.Harmonic(RateHz, 1.0, _ => hz, 0.5), RateHz).Count);
        }

        Assert.Equal((0, 0.0), FlatTops.Of([], RateHz));
        Assert.Equal((0, 0.0), FlatTops.Of([float.NaN, float.PositiveInfinity, .. new float[100]], RateHz));
        Assert.Throws<ArgumentOutOfRangeException>(() => FlatTops.Of([], 0));
    }
}
