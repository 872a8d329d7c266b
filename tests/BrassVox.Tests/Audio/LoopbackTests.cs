using System.Globalization;
using BrassVox.Audio;
using Xunit;

namespace BrassVox.Tests.Audio;

/// <summary>Plays through the machine's real back end and records the same sound through it, at the same time.</summary>
[Collection(SoundServer.Name)]
[Trait("Needs", "SoundServer")]
public sealed class LoopbackTests
{
    private const double PlayedHz = 58.27;
    private const double SungHz = 87.31;
    private const int RateHz = 48000;
    private const int Goes = 3;

    // Twice the program's default: these tests share their machine with builds, and prove that sound passes unbroken;
    // how short the buffer may be is for the benchmark "latency" to say.
    private static readonly LineRequest Request = new(Channels: 1, PeriodSamples: 512);

    [Fact]
    public Task Two_tones_come_back_at_their_pitch_for_10_s() => TwoTonesComeBack(10);

    [Fact]
    public Task Two_tones_come_back_at_their_pitch_for_30_s()
    {
        SoundServer.Need();
        Assert.SkipUnless(
            Environment.GetEnvironmentVariable("BRASSVOX_LONG") == "1", "takes 30 s: set BRASSVOX_LONG=1 to run it");
        return TwoTonesComeBack(30);
    }

    // A machine that is busy for longer than the buffer loses sound, in the server as well as here, and no line can help it; a fault of
    // ours breaks every go.
    private static async Task TwoTonesComeBack(int seconds)
    {
        SoundServer.Need();
        var broken = new List<string>();
        for (int go = 1; go <= Goes; go++)
        {
            (float[] steady, long dropouts) = await PlayAndRecord(seconds);
            if (dropouts == 0 && WhyBroken(steady) is null)
            {
                return;
            }

            broken.Add($"go {go}: {dropouts} dropouts, {WhyBroken(steady) ?? "sound unbroken"}");
        }

        Assert.Fail(string.Join("; ", broken));
    }

    // Null for one unbroken sound of both tones.
    private static string? WhyBroken(float[] steady)
    {
        double[] foundHz = Tone.FrequenciesHz(steady, RateHz, PlayedHz, SungHz);
        double awayCents = Math.Max(Math.Abs(Tone.Cents(PlayedHz, foundHz[0])), Math.Abs(Tone.Cents(SungHz, foundHz[1])));
        // One lost block of 256 samples would turn the phase by 2 (58 Hz) and 2.9 rad (87 Hz).
        double jump = Math.Max(Tone.LargestPhaseJump(steady, RateHz, foundHz, 0), Tone.LargestPhaseJump(steady, RateHz, foundHz, 1));
        float peak = steady.Max(Math.Abs);
        return awayCents <= 1.0 && jump <= 0.01 && peak is >= 0.49f and <= 0.501f
            ? null
            : string.Create(CultureInfo.InvariantCulture, $"{awayCents:0.00} c away, a phase jump of {jump:0.000} rad, peak {peak:0.000}");
    }

    // What comes back without its first half second, which holds the start of both lines.
    private static async Task<(float[] Steady, long Dropouts)> PlayAndRecord(int seconds)
    {
        var system = new AudioSystem();
        int playedSamples = 0;
        float[] recorded = new float[RateHz * (seconds + 1)];
        int recordedSamples = 0;
        var enough = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);

        LineOpening output = system.OpenOutput(Request, block =>
        {
            for (int i = 0; i < block.Length; i++)
            {
                double seconds = (double)playedSamples++ / RateHz;
                block[i] = (float)(0.25 * (Math.Sin(2 * Math.PI * PlayedHz * seconds) + Math.Sin(2 * Math.PI * SungHz * seconds)));
            }
        });
        LineOpening input = system.OpenInput(Request, block =>
        {
            int count = Math.Min(block.Length, recorded.Length - recordedSamples);
            block[..count].CopyTo(recorded.AsSpan(recordedSamples));
            recordedSamples += count;
            if (recordedSamples == recorded.Length)
                enough.TrySetResult();
        });
        await using IAudioLine playing = output.Line;
        await using IAudioLine listening = input.Line;
        Assert.Null(output.Message);
        Assert.Null(input.Message);
        Assert.Equal((RateHz, 1), (playing.Granted.SampleRateHz, playing.Granted.Channels));
        Assert.Equal((RateHz, 1), (listening.Granted.SampleRateHz, listening.Granted.Channels));

        playing.Start();
        listening.Start();
        await enough.Task.WaitAsync(TimeSpan.FromSeconds(seconds + 10), TestContext.Current.CancellationToken);
        await listening.StopAsync();
        await playing.StopAsync();

        Assert.Equal(LineEnd.Stopped, await playing.Completion);
        Assert.Equal(LineEnd.Stopped, await listening.Completion);
        return (recorded[(RateHz / 2)..((RateHz / 2) + (RateHz * seconds))], playing.DropoutCount + listening.DropoutCount);
    }
}
