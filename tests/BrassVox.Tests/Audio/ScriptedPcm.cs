using BrassVox.Audio;

namespace BrassVox.Tests.Audio;

/// <summary>A device that does what a test tells it: block sizes, faults, a changing rate, a stop that fails.</summary>
internal sealed class ScriptedPcm : IPcm
{
    internal string DeviceName { get; init; } = "USB horn mic";

    internal LineFormat Runs { get; set; } = new(48000, 1, 256, 4);

    /// <summary>What each wait answers, in turn.</summary>
    internal required Func<PcmStep> OnWait { get; init; }

    /// <summary>Samples that a recording gives, by index.</summary>
    internal Func<int, float> Sound { get; init; } = _ => 0;

    internal bool FailsToStop { get; init; }

    internal List<float> Played { get; } = new(1 << 20);

    internal int Moved { get; private set; }

    internal int Closings { get; private set; }

    public string Name => DeviceName;

    public bool KeepsTime => false;

    public LineFormat Format => Runs;

    public long DropoutCount => 0;

    public PcmStep Start() => PcmStep.Idle;

    public PcmStep Wait(int timeoutMs) => OnWait();

    public PcmStep Write(ReadOnlySpan<float> interleaved)
    {
        Played.AddRange(interleaved);
        Moved += interleaved.Length / Format.Channels;
        return PcmStep.Idle;
    }

    public PcmStep Read(Span<float> interleaved)
    {
        for (int i = 0; i < interleaved.Length; i++)
            interleaved[i] = Sound(Moved++);
        return new PcmStep(PcmState.Good, interleaved.Length);
    }

    public void Halt()
    {
        if (FailsToStop)
            throw new InvalidOperationException("AUDCLNT_E_DEVICE_INVALIDATED (0x88890004) while stopping");
    }

    public void Dispose()
    {
        Closings++;
        if (FailsToStop)
            throw new InvalidOperationException("AUDCLNT_E_DEVICE_INVALIDATED (0x88890004) while closing");
    }

    public string Describe(PcmStep step) => $"error 0x{step.Code:X8}";
}
