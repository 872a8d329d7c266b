using BrassVox.Audio;
using BrassVox.Tests.Support;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>Lines over devices that misbehave.</summary>
public sealed class PcmLineTests
{
    private const int RateHz = 48000;
    private static readonly TimeSpan Soon = TimeSpan.FromSeconds(10);

    [Fact]
    public async Task S01_a_device_pulled_out_ends_the_line_once_with_the_first_error_and_the_take_is_whole()
    {
        const int deviceInvalidated = unchecked((int)0x88890004);
        ScriptedPcm pcm = null!;
        pcm = new ScriptedPcm
        {
            FailsToStop = true,
            OnWait = () => pcm.Moved < 3 * RateHz ? new PcmStep(PcmState.Good, Math.Min(256, 3 * RateHz - pcm.Moved)) : new PcmStep(PcmState.Lost, 0, deviceInvalidated),
        };
        int taken = 0;
        int notices = 0;
        await using PcmLine line = PcmLine.Input(pcm, block => taken += block.Length, TimeProvider.System);
        Task notice = line.Completion.ContinueWith(_ => Interlocked.Increment(ref notices), TaskScheduler.Default);
        line.Start();

        Assert.Equal(LineEnd.DeviceLost, await line.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken));
        await line.StopAsync();
        await line.DisposeAsync();
        await notice;
        Assert.Equal(1, notices);
        Assert.Equal(3 * RateHz, taken);
        Assert.StartsWith("\"USB horn mic\" went away: error 0x88890004.", line.FaultMessage, StringComparison.Ordinal);
        Assert.Equal(1, pcm.Closings);
    }

    [Fact]
    public async Task S01_a_device_that_never_answers_again_is_lost_within_2_s_and_does_not_hang_the_stop()
    {
        using var never = new ManualResetEventSlim();
        var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        ScriptedPcm pcm = null!;
        pcm = new ScriptedPcm
        {
            OnWait = () =>
            {
                if (pcm.Moved < RateHz)
                    return new PcmStep(PcmState.Good, 256);
                reached.TrySetResult();
                never.Wait(TestContext.Current.CancellationToken);
                return PcmStep.Idle;
            },
        };
        var time = new ManualTime();
        PcmLine line = PcmLine.Input(pcm, _ => { }, time);
        line.Start();
        await reached.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        time.Advance(TimeSpan.FromSeconds(2));
        Assert.Equal(LineEnd.DeviceLost, await line.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken));
        Assert.Equal("\"USB horn mic\" has stopped answering. Open it again, or choose another device.", line.FaultMessage);

        Task stop = line.StopAsync();
        Assert.False(stop.IsCompleted);
        time.Advance(TimeSpan.FromSeconds(2));
        await stop.WaitAsync(Soon, TestContext.Current.CancellationToken);
        never.Set();
    }

    [Fact]
    public async Task A_stop_that_the_device_does_not_answer_says_so()
    {
        using var never = new ManualResetEventSlim();
        var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var pcm = new ScriptedPcm
        {
            OnWait = () =>
            {
                reached.TrySetResult();
                never.Wait(TestContext.Current.CancellationToken);
                return PcmStep.Idle;
            },
        };
        var time = new ManualTime();
        PcmLine line = PcmLine.Output(pcm, block => block.Clear(), true, time);
        line.Start();
        await reached.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        Task stop = line.StopAsync();
        // Less than the watchdog waits: it is the stop that runs out of time.
        time.Advance(TimeSpan.FromSeconds(1.5));
        await stop.WaitAsync(Soon, TestContext.Current.CancellationToken);
        Assert.Equal(LineEnd.DeviceLost, await line.Completion);
        never.Set();
    }

    [Fact]
    public async Task S04_whatever_the_block_sizes_the_sound_is_that_of_one_block()
    {
        // A collection, which tests beside this one cause, counts the rest of the thread's 8 KB as used: what is really allocated is so every time.
        long allocated = long.MaxValue;
        for (int attempt = 0; attempt < 3 && allocated != 0; attempt++)
        {
            allocated = await PlayInBlocks();
        }

        Assert.Equal(0, allocated);
    }

    private static async Task<long> PlayInBlocks()
    {
        int[] demands = [1, 64, 104, 900, 0, 1024, 4096, 9000];
        int turn = 0;
        ScriptedPcm pcm = null!;
        pcm = new ScriptedPcm
        {
            Runs = new LineFormat(RateHz, 1, 1024, 4),
            OnWait = () => pcm.Moved < 10 * RateHz
                ? new PcmStep(PcmState.Good, demands[turn++ % demands.Length])
                : new PcmStep(PcmState.Ended),
        };
        var duet = new Duet();
        int largest = 0;
        long atStart = -1;
        long atEnd = 0;
        await using PcmLine line = PcmLine.Output(
            pcm,
            block =>
            {
                largest = Math.Max(largest, block.Length);
                duet.Fill(block);
                atEnd = GC.GetAllocatedBytesForCurrentThread();
                if (pcm.Moved > RateHz && atStart < 0)
                    atStart = atEnd;
            },
            guarded: true,
            TimeProvider.System);
        line.Start();
        Assert.Equal(LineEnd.Stopped, await line.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken));

        Assert.InRange(largest, 1, 1024);
        float[] whole = new float[pcm.Played.Count];
        new Duet().Fill(whole);
        int ramp = RateHz / 20;
        for (int i = 0; i < whole.Length; i++)
            Assert.InRange(pcm.Played[i] - whole[i], i < ramp ? -1 : -1e-6, i < ramp ? 1 : 1e-6);
        return atEnd - atStart;
    }

    [Fact]
    public async Task A_line_opens_and_closes_with_a_ramp_of_50_ms()
    {
        ScriptedPcm pcm = null!;
        var stop = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        pcm = new ScriptedPcm
        {
            OnWait = () =>
            {
                if (pcm.Moved >= RateHz)
                    stop.TrySetResult();
                return new PcmStep(PcmState.Good, 256);
            },
        };
        await using PcmLine line = PcmLine.Output(pcm, block => block.Fill(0.5f), true, TimeProvider.System);
        line.Start();
        await stop.Task.WaitAsync(Soon, TestContext.Current.CancellationToken);
        await line.StopAsync();
        Assert.Equal(LineEnd.Stopped, await line.Completion);

        // A raised cosine from 0 to 0.5 over 2400 samples climbs at most 0.5 * pi / (2 * 2400) a sample.
        float steepest = pcm.Played.Zip(pcm.Played.Skip(1), (a, b) => Math.Abs(a - b)).Max();
        Assert.InRange(steepest, 1e-6f, 0.5 * Math.PI / 4800 * 1.001);
        Assert.InRange(pcm.Played[0], 0, 1e-3f);
        Assert.Equal(0.5f, pcm.Played[2400]);
        Assert.Equal(0, pcm.Played[^1]);
        Assert.True(pcm.Played.TakeLast(1024).All(sample => sample == 0), "one buffer of silence follows the ramp");
    }

    [Fact]
    public async Task Nothing_that_is_filled_in_gets_past_the_ceiling()
    {
        float[] monsters = [float.NaN, float.PositiveInfinity, float.NegativeInfinity, 40, -40, float.MaxValue, 0.3f, -0.89f];
        ScriptedPcm pcm = null!;
        pcm = new ScriptedPcm { OnWait = () => pcm.Moved < RateHz ? new PcmStep(PcmState.Good, 256) : new PcmStep(PcmState.Ended) };
        var line = PcmLine.Output(
            pcm,
            block =>
            {
                for (int i = 0; i < block.Length; i++)
                    block[i] = monsters[i % monsters.Length];
            },
            true,
            TimeProvider.System);
        line.Start();
        await line.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken);
        double ceiling = Math.Pow(10, -1.0 / 20) + 1e-6;
        Assert.All(pcm.Played, sample => Assert.InRange(sample, -ceiling, ceiling));
        Assert.Equal([0, 0, 0], pcm.Played.Skip(24000).Take(3));
        Assert.Equal([0.3f, -0.89f], pcm.Played.Skip(24006).Take(2));
        Assert.Equal(pcm.Played.Count / 8 * 3, line.Guard!.NonFiniteSamples);
        Assert.Equal(pcm.Played.Count / 8 * 3, line.Guard.HeldSamples);
    }

    [Fact]
    public async Task A_callback_that_throws_ends_the_line_and_not_the_program()
    {
        var pcm = new ScriptedPcm { OnWait = () => new PcmStep(PcmState.Good, 256) };
        await using PcmLine line = PcmLine.Output(pcm, _ => throw new DivideByZeroException("forced"), true, TimeProvider.System);
        line.Start();
        Assert.Equal(LineEnd.Faulted, await line.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken));
        Assert.Contains("forced", line.FaultMessage, StringComparison.Ordinal);
        await line.StopAsync();
        Assert.Equal(1, pcm.Closings);
    }

    [Fact]
    public async Task S09_the_rate_that_was_granted_is_the_rate_of_the_pitch()
    {
        // Asked for 44100 Hz, the device runs at 48000 Hz; taking the asked-for number would give 404.25 Hz.
        ScriptedPcm pcm = null!;
        pcm = new ScriptedPcm
        {
            Sound = i => (float)(0.5 * WavBytes.Sine(440, i)),
            OnWait = () => pcm.Moved < RateHz ? new PcmStep(PcmState.Good, 256) : new PcmStep(PcmState.Ended),
        };
        var system = new AudioSystem(new ScriptedBackEnd((_, _) => new PcmOpening(pcm, null)), TimeProvider.System);
        var taken = new List<float>();
        LineOpening opening = system.OpenInput(new LineRequest(SampleRateHz: 44100, Channels: 1), block => taken.AddRange(block));
        await using IAudioLine line = opening.Line;
        line.Start();
        await line.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken);
        double foundHz = Tone.FrequenciesHz(taken.ToArray(), line.Granted.SampleRateHz, 441)[0];
        Assert.InRange(Tone.Cents(440, foundHz), -0.5, 0.5);
    }

    [Fact]
    public async Task S09_a_device_that_changes_its_rate_ends_the_line_cleanly()
    {
        ScriptedPcm pcm = null!;
        pcm = new ScriptedPcm
        {
            OnWait = () =>
            {
                if (pcm.Moved >= 2 * RateHz)
                    pcm.Runs = pcm.Runs with { SampleRateHz = 16000 };
                return new PcmStep(PcmState.Good, 256);
            },
        };
        int taken = 0;
        await using PcmLine line = PcmLine.Input(pcm, block => taken += block.Length, TimeProvider.System);
        line.Start();
        Assert.Equal(LineEnd.DeviceLost, await line.Completion.WaitAsync(Soon, TestContext.Current.CancellationToken));
        Assert.Contains("the device changed its rate from 48000 to 16000 Hz", line.FaultMessage, StringComparison.Ordinal);
        Assert.Equal(2 * RateHz, taken);
    }

    [Fact]
    public async Task A_line_that_never_started_stops_and_closes_its_device()
    {
        var pcm = new ScriptedPcm { OnWait = () => PcmStep.Idle };
        PcmLine line = PcmLine.Output(pcm, _ => { }, true, TimeProvider.System);
        await line.StopAsync();
        await line.DisposeAsync();
        Assert.Equal(LineEnd.Stopped, await line.Completion);
        Assert.Equal(1, pcm.Closings);
        Assert.Throws<InvalidOperationException>(line.Start);
    }

    /// <summary>Two voices, 116.54 and 174.81 Hz, that know how far they have come.</summary>
    private sealed class Duet
    {
        private int _position;

        internal void Fill(Span<float> block)
        {
            for (int i = 0; i < block.Length; i++, _position++)
                block[i] = (float)(0.3 * WavBytes.Sine(116.54, _position) + 0.3 * WavBytes.Sine(174.81, _position));
        }
    }
}
