using System.Diagnostics;

namespace BrassVox.Audio.Linux;

/// <summary>One ALSA device, opened for one direction, worked without blocking.</summary>
internal sealed class AlsaPcm : IPcm
{
    private const int SpareMs = 250;
    private const int MostRefusals = 1000;

    private readonly LineDirection _direction;
    private readonly int _sampleFormat;
    private readonly int _bufferSamples;
    private readonly byte[] _converted;
    private readonly Stopwatch _clock = new();
    private readonly Stopwatch _sinceWrite = new();
    private readonly TimeSpan _bufferTime;
    private readonly int _patienceMs;
    private nint _pcm;
    private long _movedSamples;
    private long _dropoutCount;
    private bool _primed;

    private AlsaPcm(nint pcm, string name, LineDirection direction, int sampleFormat, LineFormat format, int bufferSamples)
    {
        _pcm = pcm;
        Name = name;
        _direction = direction;
        _sampleFormat = sampleFormat;
        Format = format;
        _bufferSamples = bufferSamples;
        _bufferTime = TimeSpan.FromSeconds((double)bufferSamples / format.SampleRateHz);
        _patienceMs = (int)Math.Ceiling(2000.0 * format.PeriodSamples / format.SampleRateHz);
        _converted = new byte[sampleFormat == AlsaNative.FormatFloat ? 0 : format.PeriodSamples * format.Channels * sizeof(int)];
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public bool KeepsTime => true;

    /// <inheritdoc/>
    public LineFormat Format { get; }

    /// <inheritdoc/>
    public long DropoutCount => Interlocked.Read(ref _dropoutCount);

    /// <summary>Opens a device by its ALSA name.</summary>
    /// <param name="id">ALSA's name of it, such as default or plughw:CARD=0.</param>
    /// <param name="name">Name for people.</param>
    /// <param name="direction">Which way the sound goes.</param>
    /// <param name="request">What is wished for.</param>
    /// <param name="pcm">The device, or null.</param>
    /// <returns>0, or libasound's negative error number.</returns>
    internal static int TryOpen(string id, string name, LineDirection direction, LineRequest request, out AlsaPcm? pcm)
    {
        pcm = null;
        int stream = direction == LineDirection.Output ? AlsaNative.Playback : AlsaNative.Capture;
        int error = AlsaNative.Open(out nint handle, id, stream, AlsaNative.NonBlocking);
        if (error < 0)
            return error;
        error = Configure(handle, direction, request, out int sampleFormat, out LineFormat format, out int bufferSamples);
        if (error < 0)
        {
            _ = AlsaNative.Close(handle);
            return error;
        }

        pcm = new AlsaPcm(handle, name, direction, sampleFormat, format, bufferSamples);
        return 0;
    }

    /// <inheritdoc/>
    public PcmStep Start()
    {
        _clock.Start();
        if (_direction == LineDirection.Output)
            return PcmStep.Idle;
        int error = AlsaNative.Start(_pcm);
        return error < 0 ? Fault(error) : PcmStep.Idle;
    }

    /// <summary>How far a device is ahead of our clock, in ms: one with none of its own (ALSA's null and file) is held to ours.</summary>
    /// <param name="samples">What it has sounded or heard, in samples.</param>
    /// <param name="rateHz">Its rate in Hz.</param>
    /// <param name="elapsedMs">Time by our clock in ms.</param>
    /// <remarks>
    /// A card's own clock is let go: one 50 millionths fast is 250 ms ahead within 84 minutes, and held to ours would run dry from then on.
    /// Quartz is good to some 100 millionths (common practice, no source); a thousand are allowed.
    /// </remarks>
    internal static double AheadMs(long samples, int rateHz, double elapsedMs) => (1000.0 * samples / rateHz) - (1.001 * elapsedMs);

    /// <inheritdoc/>
    public PcmStep Wait(int timeoutMs)
    {
        double aheadMs = AheadMs(_movedSamples - _bufferSamples, Format.SampleRateHz, _clock.Elapsed.TotalMilliseconds);
        if (aheadMs > SpareMs)
        {
            Thread.Sleep(Math.Min(timeoutMs, (int)(aheadMs - SpareMs) + 1));
            return PcmStep.Idle;
        }

        // Run dry, a sound server waits until its own buffer is full before it sounds on. Where that is shorter than ours, less may be missing
        // than the period we wait for: each would wait for the other. So after two periods what is missing is written unasked.
        bool mayBeMissing = _direction == LineDirection.Output && _movedSamples > 0;
        int ready = AlsaNative.Wait(_pcm, mayBeMissing ? Math.Min(timeoutMs, _patienceMs) : timeoutMs);
        if (ready == 0 && !mayBeMissing)
            return PcmStep.Idle;
        nint available = ready < 0 ? ready : AlsaNative.Available(_pcm);
        if (available == AlsaNative.Again)
            available = 0;
        if (available < 0)
            return Recover((int)available);
        if (available == 0)
        {
            // Woken for nothing: some plug-ins do. Do not spin at real-time priority.
            Thread.Sleep(1);
            return PcmStep.Idle;
        }

        if (_direction == LineDirection.Output && _primed && (available >= _bufferSamples || (_movedSamples > _bufferSamples && _sinceWrite.Elapsed > _bufferTime)))
        {
            // Run dry without the plug-in saying so (PulseAudio's does not). The clock counts only once the first buffer
            // has begun to drain: a server may take longer than that to start, and nothing is lost while it does.
            Interlocked.Increment(ref _dropoutCount);
            _primed = false;
        }

        return new PcmStep(PcmState.Good, (int)available);
    }

    /// <inheritdoc/>
    public unsafe PcmStep Write(ReadOnlySpan<float> interleaved)
    {
        int size = AlsaSamples.Encode(_sampleFormat, interleaved, _converted);
        fixed (float* direct = interleaved)
        fixed (byte* converted = _converted)
        {
            byte* next = size == 0 ? (byte*)direct : converted;
            int bytesPerSample = (size == 0 ? sizeof(float) : size) * Format.Channels;
            int refusals = 0;
            nuint left = (nuint)(interleaved.Length / Format.Channels);
            while (left > 0)
            {
                nint written = AlsaNative.Write(_pcm, next, left);
                if (written < 0)
                {
                    // No room after all, or run dry: the block waits, within reason.
                    if (++refusals > MostRefusals)
                        return Fault((int)written);
                    if (written == AlsaNative.Again)
                        Thread.Sleep(1);
                    else if (Recover((int)written) is { State: not PcmState.Good } step)
                        return step;
                    continue;
                }

                next += (int)written * bytesPerSample;
                left -= (nuint)written;
                _movedSamples += written;
            }
        }

        _primed = true;
        _sinceWrite.Restart();
        return PcmStep.Idle;
    }

    /// <inheritdoc/>
    public unsafe PcmStep Read(Span<float> interleaved)
    {
        interleaved.Clear();
        nuint wanted = (nuint)(interleaved.Length / Format.Channels);
        nint got;
        if (_sampleFormat == AlsaNative.FormatFloat)
        {
            fixed (float* direct = interleaved)
                got = AlsaNative.Read(_pcm, direct, wanted);
        }
        else
        {
            fixed (byte* converted = _converted)
                got = AlsaNative.Read(_pcm, converted, wanted);
            if (got > 0)
                AlsaSamples.Decode(_sampleFormat, _converted, interleaved[..((int)got * Format.Channels)]);
        }

        if (got == AlsaNative.Again)
            return PcmStep.Idle;
        if (got < 0)
            return Recover((int)got);
        _movedSamples += got;
        return new PcmStep(PcmState.Good, (int)got);
    }

    /// <inheritdoc/>
    public void Halt()
    {
        if (_pcm != 0)
            _ = AlsaNative.Drop(_pcm);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        nint pcm = Interlocked.Exchange(ref _pcm, 0);
        if (pcm != 0)
            _ = AlsaNative.Close(pcm);
    }

    /// <inheritdoc/>
    public string Describe(PcmStep step) => step.Code == 0 ? "no reason given" : AlsaNative.Explain(step.Code);

    private static int Configure(
        nint pcm, LineDirection direction, LineRequest request, out int sampleFormat, out LineFormat format, out int bufferSamples)
    {
        sampleFormat = AlsaNative.FormatFloat;
        format = default;
        bufferSamples = 0;
        uint rateHz = (uint)request.SampleRateHz;
        uint channels = (uint)request.Channels;
        nuint period = (nuint)request.PeriodSamples;
        nuint buffer = period * (nuint)Math.Max(3, request.Periods);

        int error = AlsaNative.HwMalloc(out nint hardware);
        if (error < 0)
            return error;
        try
        {
            if ((error = AlsaNative.HwAny(pcm, hardware)) < 0)
                return error;
            _ = AlsaNative.HwResample(pcm, hardware, 1);
            if ((error = AlsaNative.HwAccess(pcm, hardware, AlsaNative.AccessInterleaved)) < 0)
                return error;
            foreach (int candidate in (ReadOnlySpan<int>)[AlsaNative.FormatFloat, AlsaNative.FormatS32, AlsaNative.FormatS16])
            {
                sampleFormat = candidate;
                if ((error = AlsaNative.HwFormat(pcm, hardware, candidate)) >= 0)
                    break;
            }

            if (error < 0
                || (error = AlsaNative.HwChannels(pcm, hardware, ref channels)) < 0
                || (error = AlsaNative.HwRate(pcm, hardware, ref rateHz, 0)) < 0
                || (error = AlsaNative.HwPeriod(pcm, hardware, ref period, 0)) < 0
                || (error = AlsaNative.HwBuffer(pcm, hardware, ref buffer)) < 0
                || (error = AlsaNative.HwInstall(pcm, hardware)) < 0)
            {
                return error;
            }
        }
        finally
        {
            AlsaNative.HwFree(hardware);
        }

        error = Trigger(pcm, direction, period, buffer);
        bufferSamples = (int)buffer;
        format = new LineFormat((int)rateHz, (int)channels, (int)period, Math.Max(1, (int)(buffer / period)));
        return error;
    }

    private static int Trigger(nint pcm, LineDirection direction, nuint period, nuint buffer)
    {
        int error = AlsaNative.SwMalloc(out nint software);
        if (error < 0)
            return error;
        try
        {
            nuint threshold = direction == LineDirection.Output ? buffer / period * period : 1;
            if ((error = AlsaNative.SwCurrent(pcm, software)) < 0
                || (error = AlsaNative.SwStartThreshold(pcm, software, threshold)) < 0
                || (error = AlsaNative.SwAvailMin(pcm, software, period)) < 0)
            {
                return error;
            }

            return AlsaNative.SwInstall(pcm, software);
        }
        finally
        {
            AlsaNative.SwFree(software);
        }
    }

    private PcmStep Recover(int error)
    {
        if (error is AlsaNative.BrokenPipe or AlsaNative.Suspended)
        {
            // One that was seen coming is not counted twice.
            if (_primed || _direction == LineDirection.Input)
                Interlocked.Increment(ref _dropoutCount);
            _primed = false;
            error = AlsaNative.Recover(_pcm, error, 1);
            if (error >= 0 && _direction == LineDirection.Input)
                error = AlsaNative.Start(_pcm);
        }

        return error < 0 ? Fault(error) : PcmStep.Idle;
    }

    // Whatever ALSA cannot recover from, opening again may: the cable is back in, the server runs again.
    private static PcmStep Fault(int error) => new(PcmState.Lost, 0, error);
}
