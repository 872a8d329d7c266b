using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>The lines of a separate and a coupled pair, measured in what it renders.</summary>
public sealed class FlowPairTests
{
    private const int Rate = 48000;
    private const double PlayedHz = 58.27047;
    private const double SungHz = 87.30706;

    // No small whole-number ratio to P: within order 8 all lines lie more than 1 Hz apart and can be measured one by one.
    private const double ApartHz = 92.8;

    // Combination lines at |m P + n S|: any non-linear meeting of two tones (H. Helmholtz, On the Sensations of Tone, ch. VII).
    [Theory]
    [InlineData(29.0366)]
    [InlineData(58.2705)]
    [InlineData(87.3071)]
    [InlineData(145.5775)]
    public void A_coupled_fifth_has_lines_at_difference_and_sum_within_a_twentieth_of_a_hertz(double hz)
    {
        float[] sound = Render("tuba", "bass", 0.6f, 5);
        Assert.Equal(hz, Spectrum.StrongestHz(sound.AsSpan(Rate / 10, 4 * Rate), Rate, hz - 1, hz + 1), 0.05);
    }

    // Two independent tones only add: a linear sum has no line at S - P.
    [Theory]
    [InlineData(29.0366)]
    [InlineData(145.5775)]
    public void Separate_the_resultants_are_gone(double hz)
    {
        double coupled = Spectrum.LevelDb(Render("tuba", "bass", 0.6f, 5).AsSpan(Rate / 10, 4 * Rate), Rate, hz);
        double separate = Spectrum.LevelDb(Render("tuba", "bass", 0, 5).AsSpan(Rate / 10, 4 * Rate), Rate, hz);
        Assert.True(coupled - separate > 100, $"coupled {coupled} dB, separate {separate} dB");
    }

    [Fact]
    public void Muting_one_resultant_takes_away_that_line_and_no_other()
    {
        float[] whole = Take(Make("tuba", "bass", 0.6f, PlayedHz, ApartHz), 5);
        float[] muted = Render("tuba", "bass", 0.6f, 5, pair => pair.TryPost(PairEvent.Gain(Index(pair, "S-P"), -80, 0.05f)));
        Assert.True(LevelDb(whole, ApartHz - PlayedHz) - LevelDb(muted, ApartHz - PlayedHz) > 60);
        Assert.Equal(LevelDb(whole, ApartHz + PlayedHz), LevelDb(muted, ApartHz + PlayedHz), 0.01);
        Assert.Equal(LevelDb(whole, PlayedHz), LevelDb(muted, PlayedHz), 0.01);
    }

    [Fact]
    public void A_resultant_alone_is_a_pure_tone()
    {
        float[] alone = Render("trombone", "bass", 0.8f, 5, pair =>
        {
            foreach (PairPart part in pair.Parts)
            {
                pair.TryPost(PairEvent.Gain(part.Index, part.Name == "P+S" ? 0 : -80, 0.05f));
            }
        });
        ReadOnlySpan<float> steady = alone.AsSpan(Rate / 2, 4 * Rate);
        double line = Spectrum.LevelDb(steady, Rate, ApartHz + PlayedHz);
        double all = 10 * Math.Log10(2 * MeanSquare(steady));
        Assert.True(line > -60);
        Assert.Equal(line, all, 0.01);
    }

    [Fact]
    public void What_is_read_of_a_part_is_what_is_measured()
    {
        FlowPair pair = Make("trombone", "tenor", 0.7f, PlayedHz, ApartHz);
        float[] sound = Take(pair, 5);
        foreach (string name in (string[])["S-P", "P+S", "2P+S", "P+2S", "3P+S"])
        {
            PartReading reading = pair.Read(Index(pair, name));
            Assert.Equal(LevelDb(sound, reading.FrequencyHz), reading.LevelDbfs, 0.3);
        }

        Assert.Equal(LevelDb(sound, 4 * PlayedHz), pair.PartialLevelDbfs(VoiceRole.Played, 4), 0.3);
        Assert.Equal(LevelDb(sound, ApartHz), pair.PartialLevelDbfs(VoiceRole.Sung, 1), 0.3);
    }

    [Theory]
    [InlineData("tuba", "bass", 58.27047, 87.30706)]
    [InlineData("trombone", "tenor", 116.5409, 174.6141)]
    [InlineData("horn", "alto", 174.6141, 261.6256)]
    [InlineData("trumpet", "soprano", 233.0819, 349.2282)]
    [InlineData("trumpet", "bass", 233.0819, 174.6141)]
    [InlineData("bass-trombone", "bass", 58.2705, 146.8324)]
    [InlineData("euphonium", "tenor", 116.5409, 123.4708)]
    [InlineData("tuba", "alto", 58.2705, 349.2282)]
    public void Loudness_holds_over_the_whole_depth(string brass, string voice, double playedHz, double sungHz)
    {
        double separate = Loudness(0);
        for (float depth = 0.1f; depth < 1.05f; depth += 0.3f)
        {
            Assert.Equal(separate, Loudness(depth), 1.0);
        }

        // BS.1770 short-term (3 s); one channel.
        double Loudness(float depth)
        {
            float[] sound = Take(Make(brass, voice, depth, playedHz, sungHz), 3.5);
            return Spectrum.LoudnessLufs(sound.AsSpan(Rate / 2, 3 * Rate), Rate);
        }
    }

    [Fact]
    public void Stems_add_up_to_the_mix_also_while_the_limiter_works()
    {
        FlowPair mixed = Make("trombone", "bass", 0.9f);
        FlowPair apart = Make("trombone", "bass", 0.9f);
        mixed.LevelDb.Target = 12;
        apart.LevelDb.Target = 12;
        float[] mix = Take(mixed, 1);
        float[][] stems = [new float[Rate], new float[Rate], new float[Rate]];
        for (int at = 0; at < Rate; at += 300)
        {
            apart.RenderStems(stems[0].AsSpan(at, 300), stems[1].AsSpan(at, 300), stems[2].AsSpan(at, 300));
        }

        for (int i = 0; i < Rate; i++)
        {
            Assert.Equal(mix[i], stems[0][i] + stems[1][i] + stems[2][i], 1e-6f);
        }
    }

    [Fact]
    public void Events_are_exact_to_the_sample()
    {
        FlowPair pair = new(SourceUnderTest.Presets.BrassById("tuba"), SourceUnderTest.Presets.VoiceById("bass"), 1);
        pair.Prepare(new RenderFormat(Rate, 512));
        pair.TryPost(PairEvent.Start(1000));
        pair.TryPost(PairEvent.Tacet(20001));
        float[] sound = new float[24000];
        pair.Render(sound);
        Assert.All(sound.Take(1000), sample => Assert.Equal(0, sample));
        Assert.Contains(sound.Skip(1000).Take(480), sample => Math.Abs(sample) > 1e-6f);
        Assert.Contains(sound.Skip(20001).Take(200), sample => Math.Abs(sample) > 1e-3f);
        Assert.All(sound.Skip(20001 + 480 + 64), sample => Assert.Equal(0, sample));
        Assert.False(pair.IsSounding);
    }

    private static float[] Render(string brass, string voice, float depth, double seconds, Action<FlowPair>? also = null)
    {
        FlowPair pair = Make(brass, voice, depth, PlayedHz, also is null ? SungHz : ApartHz);
        also?.Invoke(pair);
        return Take(pair, seconds);
    }

    private static FlowPair Make(string brass, string voice, float depth, double playedHz = PlayedHz, double sungHz = SungHz)
    {
        FlowPair pair = new(SourceUnderTest.Presets.BrassById(brass), SourceUnderTest.Presets.VoiceById(voice), 1);
        pair.CouplingDepth.Target = depth;
        pair.Prepare(new RenderFormat(Rate, 512));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Played, PitchPath.Constant(playedHz)));
        pair.TryPost(PairEvent.Pitch(VoiceRole.Sung, PitchPath.Constant(sungHz)));
        pair.TryPost(PairEvent.Start());
        return pair;
    }

    private static float[] Take(FlowPair pair, double seconds)
    {
        float[] sound = new float[(int)(seconds * Rate)];
        for (int at = 0; at < sound.Length; at += 512)
        {
            pair.Render(sound.AsSpan(at, Math.Min(512, sound.Length - at)));
        }

        return sound;
    }

    private static int Index(FlowPair pair, string name) => pair.Parts.Single(part => part.Name == name).Index;

    private static double LevelDb(float[] sound, double hz) =>
        Spectrum.LevelDb(sound.AsSpan(Rate / 2, 4 * Rate), Rate, hz);

    private static double MeanSquare(ReadOnlySpan<float> sound)
    {
        double sum = 0;
        foreach (float sample in sound)
        {
            sum += (double)sample * sample;
        }

        return sum / sound.Length;
    }
}
