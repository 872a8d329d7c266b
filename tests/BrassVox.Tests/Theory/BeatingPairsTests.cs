using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Theory;

public sealed class BeatingPairsTests
{
    private static readonly double BFlat1Hz = EqualTemperament.FrequencyHz(34, 440);

    // Exact mathematics: mistuned consonances of equal temperament on Bb1 beat at |k P - m S|.
    [Theory]
    [InlineData(41, 3, 2, 0.1973)]
    [InlineData(39, 4, 3, 0.2634)]
    [InlineData(38, 5, 4, 2.3124)]
    public void Tempered_intervals_beat_as_computed(int sungMidi, int playedHarmonic, int sungHarmonic, double rate)
    {
        double sungHz = EqualTemperament.FrequencyHz(sungMidi, 440);
        BeatingPair lowest = BeatingPairs.Of(BFlat1Hz, sungHz, 8)[0];
        Assert.Equal((playedHarmonic, sungHarmonic), (lowest.PlayedHarmonic, lowest.SungHarmonic));
        Assert.Equal(rate, lowest.RateHz, 1e-4);
    }

    [Fact]
    public void A_just_fifth_stands_still()
    {
        double sungHz = Tuning.JustFrom(Pitch.Parse("Bb1")).FrequencyHz(Pitch.Parse("F2"), 440);
        Assert.Equal(0, BeatingPairs.Of(BFlat1Hz, sungHz, 3)[0].RateHz, 1e-9);
    }

    [Fact]
    public void The_nth_multiple_beats_n_times_as_fast()
    {
        IReadOnlyList<BeatingPair> pairs = BeatingPairs.Of(116.54, 233.9, 12, 20);
        double first = pairs.Single(pair => pair is { PlayedHarmonic: 2, SungHarmonic: 1 }).RateHz;
        for (int n = 2; n <= 6; n++)
        {
            Assert.Equal(n * first, pairs.Single(pair => pair.PlayedHarmonic == 2 * n && pair.SungHarmonic == n).RateHz, 1e-9);
        }
    }

    // The figures a second of a whole tone on Bb2, equal: 14 and its multiples (arithmetic on 116.541 and 130.813 Hz).
    [Fact]
    public void A_whole_tone_on_Bb2_is_grain_and_a_far_pair_is_apart()
    {
        Assert.Equal(Meeting.Grain, BeatingPairs.Classify(116.541, 130.813));
        Assert.Equal(Meeting.Beating, BeatingPairs.Classify(116.541, 123.471));
        Assert.Equal(Meeting.Still, BeatingPairs.Classify(116.541, 116.60));
        Assert.Equal(Meeting.Apart, BeatingPairs.Classify(58.27, 116.54));
    }

    [Fact]
    public void Nothing_slower_than_the_limit_is_missed()
    {
        Random random = new(20260101);
        for (int round = 0; round < 200; round++)
        {
            double played = 30 + (300 * random.NextDouble());
            double sung = 60 + (500 * random.NextDouble());
            var found = BeatingPairs.Of(played, sung, 10, 9).Select(pair => (pair.PlayedHarmonic, pair.SungHarmonic)).ToHashSet();
            for (int k = 1; k <= 10; k++)
            {
                for (int m = 1; m <= 10; m++)
                {
                    Assert.Equal(Math.Abs((k * played) - (m * sung)) <= 9, found.Contains((k, m)));
                }
            }
        }
    }
}
