using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>What would lie above half the sample rate does not come back below it.</summary>
public sealed class AliasTests
{
    // All lines of the pair are multiples of S = P / 2; a line folded at the sample rate lies at rate - k S, in the gaps between them. The floor asked for is 80 dB below the strongest line.
    [Theory]
    [InlineData("trumpet", "soprano", 1046.502, 0, 12)]
    [InlineData("trumpet", "soprano", 1046.502, 1, 12)]
    [InlineData("trombone", "soprano", 698.456, 1, 12)]
    [InlineData("bass-trombone", "bass", 461.3, 1, 6)]
    [InlineData("tuba", "alto", 345.0, 0.7, 0)]
    public void Folded_lines_lie_80_dB_below_the_tone(string brass, string voice, double playedHz, double depth, double dynamicDb)
    {
        double sungHz = playedHz / 2;
        float[] sound = TakenSound.Pair(brass, voice, playedHz, sungHz, ("couplingDepth", depth), ("playedDynamicDb", dynamicDb), ("vowel", 4)).Take(0.5);
        double strongest = Enumerable.Range(1, 8).Max(n => sound.LevelDb(0.2, 0.25, n * sungHz));
        double folded = -200;
        for (double hz = TakenSound.Rate - (Math.Ceiling(24000 / sungHz) * sungHz); hz > 30; hz -= sungHz)
        {
            double toLine = Math.Abs((hz / sungHz) - Math.Round(hz / sungHz)) * sungHz;
            Assert.True(toLine > 20, "choose pitches whose folded lines fall between the true ones");
            folded = Math.Max(folded, sound.LevelDb(0.2, 0.25, hz));
        }

        Assert.True(folded < strongest - 80, $"strongest {strongest:F1} dB, folded {folded:F1} dB");
    }
}
