using System.Buffers.Binary;
using System.Runtime.InteropServices;
using BrassVox.Audio;
using BrassVox.Audio.Linux;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>libasound itself, over the devices that it brings along and that need no card and no server.</summary>
public sealed class AlsaTests
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(10);

    /// <summary>A card whose clock is 100 millionths fast goes on for days; what has no clock is held within a second. 250 ms are let go.</summary>
    [Fact]
    public void A_card_is_left_to_its_own_clock_and_what_has_none_is_held()
    {
        const int rateHz = 48000;
        const double day = 86_400_000;
        Assert.InRange(AlsaPcm.AheadMs((long)(day / 1000 * rateHz * 1.0001), rateHz, day), double.NegativeInfinity, 250);
        Assert.InRange(AlsaPcm.AheadMs(rateHz, rateHz, 500), 250, 1000);
        Assert.Equal(0, AlsaPcm.AheadMs(0, rateHz, 0));
    }

    [Fact]
    public async Task What_is_played_reaches_the_device_bit_for_bit_and_nothing_is_allocated()
    {
        using var folder = new TestFolder("brassvox-");
        string path = folder.File("played.raw");
        int played = 0;
        long[] atEndOf = new long[4];
        var enough = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        LineOpening opening = new AudioSystem().OpenOutput(new LineRequest($"file:{path},raw", Channels: 1), block =>
        {
            for (int i = 0; i < block.Length; i++)
                block[i] = (float)(0.5 * WavBytes.Sine(116.54, played++));
            if (played < 12000)
                atEndOf[played / 3000] = GC.GetAllocatedBytesForCurrentThread();
            else
                enough.TrySetResult(); // allocates a work item, so it comes after the count
        });
        await using IAudioLine line = opening.Line;
        Need(opening);
        line.Start();
        await enough.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        await line.StopAsync();
        Assert.Equal(LineEnd.Stopped, await line.Completion);

        // Least of three stretches: a collection that falls into one of them counts there only.
        Assert.Equal(0, atEndOf.Skip(1).Zip(atEndOf, (end, start) => end - start).Min());
        float[] reached = MemoryMarshal.Cast<byte, float>(File.ReadAllBytes(path)).ToArray();
        Assert.InRange(reached.Length, 12000, int.MaxValue);
        for (int i = 2400; i < 12000 - 2400; i++)
            Assert.Equal((float)(0.5 * WavBytes.Sine(116.54, i)), reached[i]);
    }

    [Fact]
    public async Task A_device_that_records_nothing_gives_silence_and_leaves_no_old_sound_in_the_buffer()
    {
        int taken = 0;
        float loudest = 0;
        var enough = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        LineOpening opening = new AudioSystem().OpenInput(new LineRequest("null", Channels: 2), block =>
        {
            foreach (float sample in block)
                loudest = Math.Max(loudest, Math.Abs(sample));
            taken += block.Length;
            if (taken >= 10_000)
                enough.TrySetResult();
        });
        await using IAudioLine line = opening.Line;
        Need(opening);
        line.Start();
        await enough.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        await line.StopAsync();
        Assert.Equal(0, loudest);
    }

    [Fact]
    public void A_device_of_no_such_name_is_named_with_the_reason()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "needs ALSA, which is part of Linux");
        LineOpening opening = new AudioSystem().OpenOutput(new LineRequest("no_such_horn"), _ => { });
        Assert.False(opening.IsDevice);
        Assert.StartsWith("no playback device could be opened", opening.Message, StringComparison.Ordinal);
    }

    // Full scale of a signed format is not reached on the upper side: 32767 of 32768 (two's complement).
    [Fact]
    public void Samples_in_a_cards_format_are_held_to_full_scale()
    {
        float[] samples = [0, 0.5f, -0.5f, 1, 1.5f, -1, -1.5f];
        byte[] bytes = new byte[4 * samples.Length];
        Assert.Equal(2, AlsaSamples.Encode(AlsaNative.FormatS16, samples, bytes));
        Assert.Equal(
            [0, 16384, -16384, 32767, 32767, -32768, -32768],
            Enumerable.Range(0, 7).Select(i => (int)BinaryPrimitives.ReadInt16LittleEndian(bytes.AsSpan(2 * i))));
        float[] back = new float[7];
        AlsaSamples.Decode(AlsaNative.FormatS16, bytes, back);
        Assert.Equal([0, 0.5f, -0.5f, 32767 / 32768f, 32767 / 32768f, -1, -1], back);

        Assert.Equal(4, AlsaSamples.Encode(AlsaNative.FormatS32, samples, bytes));
        Assert.Equal(
            [0, 1 << 30, -(1 << 30), int.MaxValue, int.MaxValue, int.MinValue, int.MinValue],
            Enumerable.Range(0, 7).Select(i => BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(4 * i))));
        AlsaSamples.Decode(AlsaNative.FormatS32, bytes, back);
        Assert.Equal([0, 0.5f, -0.5f, 1, 1, -1, -1], back);
    }

    private static void Need(LineOpening opening) =>
        Assert.SkipUnless(opening.IsDevice, $"needs libasound with its own configuration: {opening.Message}");
}
