using BrassVox.Audio;
using CsCheck;
using Xunit;

namespace BrassVox.Tests.Audio;

public sealed class SampleRingTests
{
    [Fact]
    public void Whatever_the_portions_the_order_is_kept_and_the_loss_is_counted() =>
        Gen.Select(Gen.Int[1, 64], Gen.Int[0, 40].Array[0, 50]).Sample((capacity, portions) =>
        {
            var ring = new SampleRing(capacity);
            var model = new Queue<float>();
            long lost = 0;
            float next = 0;
            for (int i = 0; i < portions.Length; i++)
            {
                float[] portion = new float[portions[i]];
                if (i % 2 == 0)
                {
                    for (int j = 0; j < portion.Length; j++)
                        portion[j] = next++;
                    int room = Math.Min(portion.Length, ring.CapacitySamples - model.Count);
                    Assert.Equal(room, ring.Write(portion));
                    foreach (float sample in portion[..room])
                        model.Enqueue(sample);
                    lost += portion.Length - room;
                }
                else
                {
                    int got = ring.Read(portion);
                    Assert.Equal(Math.Min(portion.Length, model.Count), got);
                    foreach (float sample in portion[..got])
                        Assert.Equal(model.Dequeue(), sample);
                }

                Assert.Equal((model.Count, lost), (ring.AvailableSamples, ring.LostSamples));
            }
        });

    [Fact]
    public async Task Two_threads_pass_a_million_samples_in_order()
    {
        const int total = 1_000_000;
        var ring = new SampleRing(1024);
        Task writer = Task.Run(
            () =>
            {
                float[] one = new float[37];
                for (int sent = 0; sent < total;)
                {
                    int count = Math.Min(one.Length, Math.Min(total - sent, ring.CapacitySamples - ring.AvailableSamples));
                    for (int i = 0; i < count; i++)
                        one[i] = sent + i;
                    sent += ring.Write(one.AsSpan(0, count));
                    if (count == 0)
                        Thread.Yield();
                }
            },
            TestContext.Current.CancellationToken);
        float[] block = new float[64];
        int received = 0;
        while (received < total)
        {
            int got = ring.Read(block);
            for (int i = 0; i < got; i++)
                Assert.Equal(received + i, block[i]);
            received += got;
            if (got == 0)
                Thread.Yield();
        }

        await writer;
        Assert.Equal(0, ring.LostSamples);
    }

    [Theory]
    [InlineData(0)]
    [InlineData((1 << 30) + 1)]
    public void A_capacity_outside_the_range_is_refused(int capacity) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new SampleRing(capacity));
}
