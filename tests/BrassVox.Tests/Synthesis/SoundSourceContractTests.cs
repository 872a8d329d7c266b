using BrassVox.Synthesis;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Synthesis;

/// <summary>What every sound source promises, whatever it sounds like.</summary>
public sealed class SoundSourceContractTests
{
    private const int Block = 256;

    public static TheoryData<int, int> SourcesAndRates()
    {
        TheoryData<int, int> data = [];
        for (int i = 0; i < SourceUnderTest.All.Count; i++)
        {
            data.Add(i, 44100);
            data.Add(i, 48000);
            data.Add(i, 96000);
        }

        return data;
    }

    public static TheoryData<int> Sources() => [.. Enumerable.Range(0, SourceUnderTest.All.Count)];

    [Theory]
    [MemberData(nameof(SourcesAndRates))]
    public void Output_is_finite_below_full_scale_and_not_silent(int source, int rate)
    {
        float[] sound = Render(source, rate, rate, Block);
        Assert.All(sound, sample => Assert.InRange(sample, -0.892f, 0.892f));
        Assert.True(sound.Max() > 0.01f, "it is silent");
    }

    [Theory]
    [MemberData(nameof(SourcesAndRates))]
    public void Reset_then_render_repeats_the_output_exactly(int source, int rate)
    {
        SourceUnderTest test = SourceUnderTest.All[source];
        ISoundSource sounding = Prepared(test, rate);
        float[] first = Take(sounding, rate / 2, Block);
        sounding.Reset();
        test.Begin(sounding);
        Assert.Equal(first, Take(sounding, rate / 2, Block));
    }

    [Theory]
    [MemberData(nameof(SourcesAndRates))]
    public void Any_split_into_blocks_gives_the_same_output(int source, int rate)
    {
        float[] whole = Render(source, rate, rate / 2, Block);
        ISoundSource sounding = Prepared(SourceUnderTest.All[source], rate);
        Random random = new(20260725);
        float[] split = new float[whole.Length];
        for (int at = 0; at < split.Length;)
        {
            int count = Math.Min(random.Next(0, Block + 1), split.Length - at);
            sounding.Render(split.AsSpan(at, count));
            at += count;
        }

        Assert.Equal(whole, split);
    }

    [Theory]
    [MemberData(nameof(Sources))]
    public void Ten_seconds_of_rendering_allocate_nothing(int source)
    {
        ISoundSource sounding = Prepared(SourceUnderTest.All[source], 48000);
        float[] block = new float[Block];
        for (int i = 0; i < 48000 / Block; i++)
        {
            sounding.Render(block);
        }

        Assert.Equal(0, Allocated.Least(() =>
        {
            for (int i = 0; i < 10 * 48000 / Block; i++)
            {
                sounding.Render(block);
            }
        }));
    }

    private static float[] Render(int source, int rate, int samples, int block) =>
        Take(Prepared(SourceUnderTest.All[source], rate), samples, block);

    private static ISoundSource Prepared(SourceUnderTest test, int rate)
    {
        ISoundSource source = test.Make();
        source.Prepare(new RenderFormat(rate, Block));
        test.Begin(source);
        return source;
    }

    private static float[] Take(ISoundSource source, int samples, int block)
    {
        float[] sound = new float[samples];
        for (int at = 0; at < samples; at += block)
        {
            source.Render(sound.AsSpan(at, Math.Min(block, samples - at)));
        }

        return sound;
    }
}
