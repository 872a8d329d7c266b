using BrassVox.Synthesis;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>Whatever is asked of a pair, at whatever rate and block, the sound stays finite and below -1 dB of full scale.</summary>
public sealed class FlowPairFuzzTests
{
    [Theory]
    [InlineData(1, 8000)]
    [InlineData(2, 44100)]
    [InlineData(3, 48000)]
    [InlineData(4, 96000)]
    [InlineData(5, 192000)]
    public void Random_controls_and_events_keep_the_sound_within_bounds(int seed, int rate)
    {
        Random random = new(seed);
        TonePresets presets = SourceUnderTest.Presets;
        FlowPair pair = new(presets.Brass[random.Next(presets.Brass.Count)], presets.Voices[random.Next(presets.Voices.Count)], seed);
        pair.Prepare(new RenderFormat(rate, 1024));
        pair.TryPost(PairEvent.Start());
        float[] block = new float[1024];
        for (int turn = 0; turn < 120; turn++)
        {
            Parameter control = pair.Parameters[random.Next(pair.Parameters.Count)];
            control.Target = control.Spec.Minimum + ((control.Spec.Maximum - control.Spec.Minimum) * (float)random.NextDouble());
            pair.TryPost(Event(random, pair.SamplesRendered));
            Span<float> span = block.AsSpan(0, random.Next(1025));
            pair.Render(span);
            foreach (float sample in span)
            {
                Assert.True(Math.Abs(sample) <= 0.8913f, $"seed {seed}, turn {turn}: {sample}");
            }

            PartReading reading = pair.Read(random.Next(pair.Parts.Count));
            Assert.True(double.IsFinite(reading.LevelDbfs) && double.IsFinite(reading.FrequencyHz), $"seed {seed}, turn {turn}: {reading}");
        }
    }

    [Fact]
    public void A_full_queue_says_so_lets_a_tacet_through_and_recovers()
    {
        FlowPair pair = TakenSound.Pair("tuba", "bass", 58, 87);
        int posted = 0;
        while (pair.TryPost(PairEvent.Coupling(0.5f, 0.05f, 100000 + posted)))
        {
            posted++;
            Assert.True(posted < 10000, "the queue has no end");
        }

        Assert.True(posted >= 64);
        pair.Take(0.1);
        Assert.True(pair.TryPost(PairEvent.Tacet()));
        Assert.Contains(pair.Take(0.05), sample => sample != 0);
        Assert.All(pair.Take(0.05), sample => Assert.Equal(0, sample));
        pair.Take(3);
        Assert.True(pair.TryPost(PairEvent.Start()));
    }

    private static PairEvent Event(Random random, long now)
    {
        long at = now + random.Next(-200, 2000);
        VoiceRole role = random.Next(2) == 0 ? VoiceRole.Played : VoiceRole.Sung;
        return random.Next(7) switch
        {
            0 => PairEvent.Start(at),
            1 => PairEvent.Stop(at),
            2 => PairEvent.Pitch(role, PitchPath.Constant(5 * Math.Pow(4000, random.NextDouble())), at),
            3 => PairEvent.Pitch(role, PitchPath.Glide(5, 20000, 0.01 + random.NextDouble()), at),
            4 => PairEvent.Gain(random.Next(-3, 20), (random.NextSingle() * 100) - 85, random.NextSingle() * 0.1f, at),
            5 => PairEvent.Coupling(random.NextSingle() * 2, random.NextSingle() * 0.2f, at),
            _ => PairEvent.Start(at),
        };
    }
}
