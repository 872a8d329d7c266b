using BrassVox.Audio;
using BrassVox.Audio.Wav;
using Xunit;

namespace BrassVox.Tests.Audio;

public sealed class WavLinesTests
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(10);

    [Theory]
    [InlineData(1)]
    [InlineData(256)]
    [InlineData(5000)]
    public async Task A_file_played_into_is_the_file_recorded_from_whatever_the_blocks(int blockSamples)
    {
        using var folder = new TestFolder();
        string path = folder.File("pair.wav");
        float next = 0;
        var options = new WavWriteOptions(44100, 2, WavEncoding.Floating32);
        Assert.True(WavLines.TryPlayInto(path, options, 10_001, Count, out IAudioLine? output, out _, blockSamples));
        await using (output)
        {
            output.Start();
            Assert.Equal(LineEnd.Stopped, await output.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken));
            // The file is whole as soon as the line has ended.
            Assert.Equal(10_001, Assert.IsType<WavSound>(WavReader.Read(path)).SampleCount);
        }

        var heard = new List<float>();
        Assert.True(WavLines.TryRecordFrom(path, block => heard.AddRange(block), out IAudioLine? input, out _, blockSamples));
        await using (input)
        {
            Assert.Equal((44100, 2), (input.Granted.SampleRateHz, input.Granted.Channels));
            input.Start();
            Assert.Equal(LineEnd.Stopped, await input.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken));
        }

        Assert.Equal(Enumerable.Range(0, 20_002).Select(i => i / 32768f), heard);

        void Count(Span<float> block)
        {
            for (int i = 0; i < block.Length; i++)
                block[i] = next++ / 32768f;
        }
    }

    [Fact]
    public async Task A_line_stopped_early_leaves_a_whole_file()
    {
        using var folder = new TestFolder();
        string path = folder.File("early.wav");
        var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        long filled = 0;
        Assert.True(WavLines.TryPlayInto(
            path,
            new WavWriteOptions(48000, 1),
            long.MaxValue,
            block =>
            {
                block.Clear();
                filled += block.Length;
                reached.TrySetResult();
            },
            out IAudioLine? line,
            out _));
        line.Start();
        await reached.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        await line.StopAsync();
        Assert.Equal(filled, Assert.IsType<WavSound>(WavReader.Read(path)).SampleCount);
    }

    [Fact]
    public void What_cannot_be_opened_is_a_typed_failure()
    {
        using var folder = new TestFolder();
        Assert.False(WavLines.TryRecordFrom(folder.File("none.wav"), _ => { }, out _, out WavFailure? reading));
        Assert.Equal(WavFailureKind.NotFound, reading.Kind);
        Assert.False(WavLines.TryPlayInto(folder.File("no/where.wav"), new WavWriteOptions(48000, 1), 1, _ => { }, out _, out WavWriteFailure? writing));
        Assert.Equal(WavWriteFailureKind.NoFolder, writing.Kind);
    }
}
