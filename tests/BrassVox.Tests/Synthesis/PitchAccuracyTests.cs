using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>Pitch over minutes and along paths, measured from the phase of what is rendered.</summary>
public sealed class PitchAccuracyTests
{
    private const int Rate = TakenSound.Rate;

    // Phase of the fundamental a minute and a half apart: a hundredth of a cent at 58.27 Hz over 88 s is 0.03 of a turn.
    [Fact]
    public void A_standing_tone_keeps_its_pitch_to_a_hundredth_of_a_cent_over_minutes()
    {
        const double Hz = 58.2704736;
        FlowPair pair = TakenSound.Pair("tuba", "bass", Hz, 87.3).Alone("P");
        float[] early = pair.Take(2);
        Skip(pair, 87);
        float[] late = pair.Take(1);
        double turns = Phase(late, 0, Rate, i => Hz * (i + (89.0 * Rate)) / Rate) - Phase(early, Rate, Rate, i => Hz * i / Rate);
        double cents = 1200 / Math.Log(2) * (turns - Math.Round(turns)) / (88 * Hz);
        Assert.InRange(cents, -0.0005, 0.0005);
    }

    [Fact]
    public void A_detuning_in_hertz_gives_that_beat_exactly()
    {
        const double Hz = 116.5409;
        FlowPair pair = TakenSound.Pair("tuba", "bass", 58, Hz, ("sungDetuneHz", 0.25)).Alone("S");
        float[] sound = pair.Take(22);
        double turns = Phase(sound, 21 * Rate, Rate, i => Hz * i / Rate) - Phase(sound, Rate, Rate, i => Hz * i / Rate);
        Assert.Equal(0.25 * 20, turns + Math.Round(5 - turns), 1e-3);
    }

    // The phase of a glide that is straight in cents from f to r f in T seconds: f T / ln r (r^(t/T) - 1). The residual phase of the rendered tone against it gives its error in cents.
    [Theory]
    [InlineData(58.27, 116.54, 2.0)]
    [InlineData(233.08, 174.61, 1.0)]
    [InlineData(466.16, 932.33, 3.0)]
    public void A_glide_is_straight_in_cents_within_a_twentieth_of_a_cent(double fromHz, double toHz, double seconds)
    {
        FlowPair pair = TakenSound.Pair("tuba", "bass", fromHz, 87.3).Alone("P");
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Glide(fromHz, toHz, seconds), Rate));
        float[] sound = pair.Take(1 + seconds);
        double logRatio = Math.Log(toHz / fromHz);
        double Turns(int i)
        {
            double t = (double)(i - Rate) / Rate;
            return fromHz * seconds / logRatio * (Math.Exp(logRatio * t / seconds) - 1);
        }

        const int Hop = Rate / 10;
        for (int at = Rate + Hop; at + (3 * Hop) < sound.Length; at += Hop)
        {
            double turns = Phase(sound, at + Hop, 2 * Hop, Turns) - Phase(sound, at, 2 * Hop, Turns);
            double hz = fromHz * Math.Exp(logRatio * (at + (1.5 * Hop) - Rate) / Rate / seconds);
            double cents = 1200 / Math.Log(2) * (turns - Math.Round(turns)) * Rate / Hop / hz;
            Assert.InRange(cents, -0.05, 0.05);
        }
    }

    [Fact]
    public void Parallel_contrary_and_oblique_motion_keep_their_rule_at_every_time()
    {
        (double, double)[] line = [(0, 0), (2, 700), (3, 700), (4, -500)];
        PairPaths parallel = PairPaths.Parallel(116.54, 174.61, 90, line);
        PairPaths contrary = PairPaths.Contrary(116.54, 174.61, 90, line);
        PairPaths oblique = PairPaths.Oblique(116.54, 174.61, VoiceRole.Sung, 90, line);
        for (double t = 0; t < 3; t += 0.01)
        {
            Assert.Equal(174.61 / 116.54, parallel.Sung.FrequencyHz(t) / parallel.Played.FrequencyHz(t), 1e-9);
            Assert.Equal(174.61 * 116.54, contrary.Sung.FrequencyHz(t) * contrary.Played.FrequencyHz(t), 1e-6);
            Assert.Equal(116.54, oblique.Played.FrequencyHz(t), 1e-9);
            Assert.Equal(parallel.Sung.FrequencyHz(t), oblique.Sung.FrequencyHz(t), 1e-9);
        }

        // Beat 2 at 90 beats per minute is 4/3 s: a fifth above.
        Assert.Equal(174.61 * Math.Pow(2, 700 / 1200.0), parallel.Sung.FrequencyHz(4.0 / 3), 1e-9);
    }

    [Fact]
    public void Steps_hold_and_arrive_on_the_beat()
    {
        PairPaths paths = PairPaths.Oblique(100, 200, VoiceRole.Sung, 60, PairPaths.Steps(0.1, (0, 0), (1, 100), (2, 200)));
        Assert.Equal(200, paths.Sung.FrequencyHz(0.89), 1e-9);
        Assert.Equal(200 * Math.Pow(2, 1 / 12.0), paths.Sung.FrequencyHz(1), 1e-9);
        Assert.Equal(200 * Math.Pow(2, 1 / 12.0), paths.Sung.FrequencyHz(1.85), 1e-9);
        Assert.Throws<ArgumentException>(() => PairPaths.Steps(1, (0, 0), (1, 100)));
    }

    private static void Skip(FlowPair source, int seconds)
    {
        float[] block = new float[512];
        for (int left = seconds * Rate; left > 0; left -= block.Length)
        {
            source.Render(block.AsSpan(0, Math.Min(block.Length, left)));
        }
    }

    // Phase, in turns, of a stretch against a reference phase, through a four-term window that shuts the other partials out.
    private static double Phase(float[] sound, int from, int count, Func<int, double> turns)
    {
        double real = 0, imaginary = 0;
        for (int i = 0; i < count; i++)
        {
            double once = Math.Cos(2 * Math.PI * i / count);
            double twice = (2 * once * once) - 1;
            double window = 0.35875 - (0.48829 * once) + (0.14128 * twice) - (0.01168 * once * ((2 * twice) - 1));
            (double sine, double cosine) = Math.SinCos(2 * Math.PI * turns(from + i));
            real += window * sound[from + i] * cosine;
            imaginary -= window * sound[from + i] * sine;
        }

        return Math.Atan2(imaginary, real) / (2 * Math.PI);
    }
}
