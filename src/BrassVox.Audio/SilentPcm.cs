namespace BrassVox.Audio;

/// <summary>No device at all: takes what is played, gives silence, at the pace of a clock.</summary>
internal sealed class SilentPcm : IPcm
{
    private readonly TimeProvider _time;
    private long _startedAt;
    private long _movedSamples;
    private long _dropoutCount;

    /// <summary>Makes a silent device that grants whatever is asked.</summary>
    /// <param name="request">What is wished for.</param>
    /// <param name="time">Clock that paces it.</param>
    internal SilentPcm(LineRequest request, TimeProvider time)
    {
        _time = time;
        Format = new LineFormat(request.SampleRateHz, request.Channels, request.PeriodSamples, 1);
    }

    /// <inheritdoc/>
    public string Name => "no sound";

    /// <inheritdoc/>
    public bool KeepsTime => false;

    /// <inheritdoc/>
    public LineFormat Format { get; }

    /// <inheritdoc/>
    public long DropoutCount => Interlocked.Read(ref _dropoutCount);

    /// <inheritdoc/>
    public PcmStep Start()
    {
        _startedAt = _time.GetTimestamp();
        return PcmStep.Idle;
    }

    /// <inheritdoc/>
    public PcmStep Wait(int timeoutMs)
    {
        double dueSamples = _time.GetElapsedTime(_startedAt).TotalSeconds * Format.SampleRateHz - _movedSamples;
        if (dueSamples > Format.SampleRateHz)
        {
            // More than a second late: the machine slept. Carry on from now; do not race through the lost time.
            Interlocked.Increment(ref _dropoutCount);
            _movedSamples += (long)dueSamples - Format.PeriodSamples;
            dueSamples = Format.PeriodSamples;
        }

        if (dueSamples >= Format.PeriodSamples)
            return new PcmStep(PcmState.Good, Format.PeriodSamples);
        double waitMs = 1000 * (Format.PeriodSamples - dueSamples) / Format.SampleRateHz;
        Thread.Sleep(Math.Clamp((int)Math.Ceiling(waitMs), 1, timeoutMs));
        return PcmStep.Idle;
    }

    /// <inheritdoc/>
    public PcmStep Write(ReadOnlySpan<float> interleaved)
    {
        _movedSamples += interleaved.Length / Format.Channels;
        return PcmStep.Idle;
    }

    /// <inheritdoc/>
    public PcmStep Read(Span<float> interleaved)
    {
        interleaved.Clear();
        int samples = interleaved.Length / Format.Channels;
        _movedSamples += samples;
        return new PcmStep(PcmState.Good, samples);
    }

    /// <inheritdoc/>
    public void Halt()
    {
    }

    /// <inheritdoc/>
    public void Dispose()
    {
    }

    /// <inheritdoc/>
    public string Describe(PcmStep step) => "no reason given";
}
