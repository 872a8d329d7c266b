using BrassVox.Audio;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Audio;

public sealed class AudioSystemTests
{
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(10);

    [Fact]
    public async Task Without_a_device_the_silent_line_runs_at_the_pace_of_the_clock_and_there_is_one_message()
    {
        var time = new ManualTime();
        var system = new AudioSystem(
            new ScriptedBackEnd((_, _) => new PcmOpening(null, "no playback device could be opened")), time);
        int filled = 0;
        var half = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        LineOpening opening = system.OpenOutput(new LineRequest(), block =>
        {
            filled += block.Length / 2;
            if (filled == 24064)
                half.TrySetResult();
        });
        Assert.False(opening.IsDevice);
        Assert.Equal("no playback device could be opened", opening.Message);

        await using IAudioLine line = opening.Line;
        int readings = time.Readings;
        line.Start();
        // The line's thread counts from when it starts, and goes on reading the clock.
        Assert.True(SpinWait.SpinUntil(() => time.Readings >= readings + 5, Soon));
        // 94 blocks of 256 make 24064 samples, which fall due at 501.33 ms.
        for (int step = 0; step < 5; step++)
            time.Advance(TimeSpan.FromMilliseconds(100));
        time.Advance(TimeSpan.FromMilliseconds(2));
        await half.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        await line.StopAsync();
        Assert.Equal(24064, filled);
        Assert.Equal(0, line.DropoutCount);
        Assert.Equal(LineEnd.Stopped, await line.Completion);
    }

    [Fact]
    public async Task A_sound_server_that_hangs_hangs_nothing_else_and_what_opens_too_late_is_closed()
    {
        using var hang = new ManualResetEventSlim();
        var entered = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var closed = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var late = new ClosingPcm(closed);
        var time = new ManualTime();
        var system = new AudioSystem(
            new ScriptedBackEnd((_, _) =>
            {
                entered.TrySetResult();
                hang.Wait(TestContext.Current.CancellationToken);
                return new PcmOpening(late, null);
            }),
            time);
        Task<LineOpening> opening = Task.Run(() => system.OpenInput(new LineRequest(), _ => { }), TestContext.Current.CancellationToken);
        await entered.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        while (!opening.IsCompleted)
        {
            time.Advance(TimeSpan.FromSeconds(1));
            await Task.Yield();
        }

        LineOpening result = await opening;
        Assert.False(result.IsDevice);
        Assert.StartsWith("no recording device could be opened: the sound system has not answered for 4 s", result.Message, StringComparison.Ordinal);
        await result.Line.DisposeAsync();
        hang.Set();
        await closed.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task A_back_end_that_throws_is_no_device()
    {
        var system = new AudioSystem(
            new ScriptedBackEnd((_, _) => throw new InvalidOperationException("forced")) { Devices = () => throw new InvalidOperationException("forced") },
            TimeProvider.System);
        Assert.Empty(system.ListDevices());
        LineOpening opening = system.OpenOutput(new LineRequest(), _ => { });
        await using IAudioLine line = opening.Line;
        Assert.False(opening.IsDevice);
        Assert.Equal("no playback device could be opened: forced", opening.Message);
    }

    [Fact]
    public async Task S04_a_granted_delay_above_100_ms_is_told_once_in_ms()
    {
        var pcm = new ScriptedPcm { OnWait = () => PcmStep.Idle, Runs = new LineFormat(48000, 2, 2048, 4) };
        var system = new AudioSystem(new ScriptedBackEnd((_, _) => new PcmOpening(pcm, null)), TimeProvider.System);
        LineOpening opening = system.OpenOutput(new LineRequest(), _ => { });
        await using IAudioLine line = opening.Line;
        Assert.True(opening.IsDevice);
        Assert.Equal("\"USB horn mic\" delays the sound by 171 ms. Ask for shorter blocks, or choose another device.", opening.Message);
    }

    [Theory]
    [InlineData(7999, 2, 256)]
    [InlineData(48000, 0, 256)]
    [InlineData(48000, 33, 256)]
    [InlineData(48000, 2, 0)]
    public void A_request_that_makes_no_sense_is_refused(int rateHz, int channels, int periodSamples) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new AudioSystem(new NoBackEnd(), TimeProvider.System)
            .OpenOutput(new LineRequest(null, rateHz, channels, periodSamples), _ => { }));

    private sealed class ClosingPcm(TaskCompletionSource closed) : IPcm
    {
        public string Name => "late";

        public bool KeepsTime => false;

        public LineFormat Format => new(48000, 1, 256, 4);

        public long DropoutCount => 0;

        public PcmStep Start() => PcmStep.Idle;

        public PcmStep Wait(int timeoutMs) => PcmStep.Idle;

        public PcmStep Write(ReadOnlySpan<float> interleaved) => PcmStep.Idle;

        public PcmStep Read(Span<float> interleaved) => PcmStep.Idle;

        public void Halt()
        {
        }

        public void Dispose() => closed.TrySetResult();

        public string Describe(PcmStep step) => "";
    }
}
