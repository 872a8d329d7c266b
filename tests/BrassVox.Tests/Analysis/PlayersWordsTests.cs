using BrassVox.Analysis.Sensation;
using BrassVox.Theory;
using Xunit;
using static BrassVox.Tests.Support.CalibratedSounds;

namespace BrassVox.Tests.Analysis;

/// <summary>What players say of a pair over a played Bb2. Common practice, no source.</summary>
/// <remarks>The fundamentals alone sound, so that the pair's beats are not mixed with each tone's own buzz.</remarks>
public sealed class PlayersWordsTests
{
    private const double BFlat2 = 116.5409;
    private const double BNatural2 = 123.4708;
    private const double C3 = 130.8128;

    private static readonly double[] Fundamental = [1];
    private static readonly double[] WithOctave = [1, 1];

    [Fact]
    public void A_whole_tone_is_grainy_and_a_semitone_beats_more_slowly()
    {
        Assert.Equal(Meeting.Grain, BeatingPairs.Classify(BFlat2, C3));
        Assert.Equal(Meeting.Beating, BeatingPairs.Classify(BFlat2, BNatural2));

        Assert.True(Roughness(C3) > 1.2 * Roughness(BNatural2));
        Assert.True(Fluctuation(BNatural2, Fundamental) > 1.5 * Fluctuation(C3, Fundamental));
    }

    [Fact]
    public void At_the_unison_beating_vanishes()
    {
        Assert.Equal(Meeting.Still, BeatingPairs.Classify(BFlat2, BFlat2));
        double still = Fluctuation(BFlat2, Fundamental);
        Assert.InRange(still, 0, 0.02);
        Assert.True(Fluctuation(BFlat2 + 3, Fundamental) > 10 * still);
    }

    [Fact]
    public void Near_the_octave_the_second_played_harmonic_beats_with_the_sung_tone()
    {
        double sung = (2 * BFlat2) + 3;
        BeatingPair lowest = BeatingPairs.Of(BFlat2, sung, 6)[0];

        Assert.Equal(2, lowest.PlayedHarmonic);
        Assert.Equal(1, lowest.SungHarmonic);
        Assert.Equal(3, lowest.RateHz, 1e-9);

        double beating = Fluctuation(sung, WithOctave);
        Assert.True(beating > 5 * Fluctuation(2 * BFlat2, WithOctave), "in tune it stands still");
        Assert.True(beating > 5 * Fluctuation(sung, Fundamental), "without the second harmonic nothing beats");
    }

    private static double Roughness(double sungHz)
    {
        var meter = new RoughnessMeter(Rate, FullScaleDbSpl);
        return meter.OverTake(Pair(Rate / 2, 70, BFlat2, Fundamental, sungHz, Fundamental)).Average();
    }

    private static double Fluctuation(double sungHz, double[] playedAmplitudes)
    {
        var meter = new FluctuationMeter(Rate, FullScaleDbSpl);
        return meter.Measure(Pair(meter.WindowSamples, 70, BFlat2, playedAmplitudes, sungHz, Fundamental));
    }
}
