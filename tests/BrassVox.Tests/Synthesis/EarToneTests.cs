using BrassVox.Synthesis;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>Ear-made tones: published levels, and never in the sound unless asked for.</summary>
public sealed class EarToneTests
{
    // L1 + L2 - 130 dB (H. Fastl, E. Zwicker, Psychoacoustics, ch. 14, from memory): 80 and 80 give 30, 90 and 90 give 50. The ear's rule for 2P - S: 2 L1 - L2 - 63 at 60 to 80 dB, an engineering approximation.
    [Theory]
    [InlineData(80, 80, 30, 17)]
    [InlineData(90, 90, 50, 27)]
    [InlineData(70, 60, 0, 17)]
    public void Levels_follow_the_rules(double lower, double upper, double quadratic, double cubic)
    {
        Assert.Equal(quadratic, EarTones.QuadraticLevelDbSpl(lower, upper), 1e-9);
        Assert.Equal(cubic, EarTones.CubicLevelDbSpl(lower, upper), 1e-9);
    }

    [Fact]
    public void They_are_added_only_on_request_and_at_their_level()
    {
        const double Played = 233.08;
        const double Sung = 353.7;
        float[] plain = TakenSound.Pair("horn", "alto", Played, Sung).Take(1.5);
        float[] added = TakenSound.Pair("horn", "alto", Played, Sung, ("earTonesDb", 20), ("listeningLevelDbSpl", 90)).Take(1.5);
        Assert.True(plain.LevelDb(0.3, 1, Sung - Played) < -110);
        Assert.True(plain.LevelDb(0.3, 1, (2 * Played) - Sung) < -110);

        // 90 dB SPL stands for -23 dBFS (root mean square); a line of level L dB re a full sine is heard at L - 3.01 + 113.
        double played = plain.LevelDb(0.3, 1, Played) - 3.01 + 113;
        double sung = plain.LevelDb(0.3, 1, Sung) - 3.01 + 113;
        Assert.Equal(Math.Min(played + sung - 130 + 20 - 113, -30) + 3.01, added.LevelDb(0.3, 1, Sung - Played), 0.5);
        Assert.Equal(Math.Min((2 * played) - sung - 63 + 20 - 113, -30) + 3.01, added.LevelDb(0.3, 1, (2 * Played) - Sung), 0.5);
    }
}
