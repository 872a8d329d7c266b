using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace BrassVox.Audio.MacOS;

/// <summary>
/// One macOS device through an audio queue. The queue hands buffers back on a thread of its own; that thread only lists
/// them and wakes the line's sound thread. The queue converts rates, so what is asked is what is granted.
/// </summary>
[SupportedOSPlatform("macos")]
internal sealed unsafe class CoreAudioPcm : IPcm
{
    private readonly LineDirection _direction;
    private readonly nint[] _returned;
    private readonly SemaphoreSlim _ready = new(0);

    // Six device cycles of 512 at 48 kHz: a headset that plays and records takes that much at once. By what other programs use; never measured.
    private const double LeastBufferSeconds = 0.064;

    private GCHandle _self;
    private nint _queue;
    private long _returnedCount;
    private long _usedCount;
    private int _bufferUsedSamples;
    private bool _haveBuffer;
    private long _dropoutCount;

    private CoreAudioPcm(string name, LineDirection direction, LineFormat format)
    {
        Name = name;
        Format = format;
        _direction = direction;
        _returned = new nint[format.Periods];
        _self = GCHandle.Alloc(this);
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public bool KeepsTime => true;

    /// <inheritdoc/>
    public LineFormat Format { get; }

    /// <inheritdoc/>
    public long DropoutCount => Interlocked.Read(ref _dropoutCount);

    /// <summary>Opens a device.</summary>
    /// <param name="name">Name for people.</param>
    /// <param name="direction">Which way the sound goes.</param>
    /// <param name="request">What is wished for.</param>
    /// <param name="pcm">The device, or null.</param>
    /// <returns>0, or the system's error number.</returns>
    internal static int TryOpen(string name, LineDirection direction, LineRequest request, out CoreAudioPcm? pcm)
    {
        int least = (int)Math.Ceiling(LeastBufferSeconds * request.SampleRateHz / request.PeriodSamples);
        var format = new LineFormat(request.SampleRateHz, request.Channels, request.PeriodSamples, Math.Max(Math.Max(3, least), request.Periods));
        pcm = new CoreAudioPcm(name, direction, format);
        int error = pcm.Open(request.DeviceId);
        if (error == 0)
            return 0;
        pcm.Dispose();
        pcm = null;
        return error;
    }

    /// <inheritdoc/>
    public PcmStep Start()
    {
        // A queue that plays was started, silent, when it was opened: what that takes, or refuses, is known before there is a line.
        int error = _direction == LineDirection.Input ? CoreAudioNative.Start(_queue, 0) : 0;
        return Answer(error);
    }

    /// <inheritdoc/>
    public PcmStep Wait(int timeoutMs)
    {
        if (!_haveBuffer)
        {
            if (!_ready.Wait(timeoutMs))
                return PcmStep.Idle;
            _haveBuffer = true;
            // Every buffer back at once: the device has run dry, or its listener came too late. Not before the first round: it began when it was opened.
            if (_usedCount > Format.Periods && Volatile.Read(ref _returnedCount) - _usedCount == Format.Periods)
                Interlocked.Increment(ref _dropoutCount);
        }

        int samples = _direction == LineDirection.Output ? Format.PeriodSamples : CurrentSamples(Current);
        if (samples - _bufferUsedSamples > 0)
            return new PcmStep(PcmState.Good, samples - _bufferUsedSamples);
        return GiveBack();
    }

    /// <inheritdoc/>
    public PcmStep Write(ReadOnlySpan<float> interleaved)
    {
        CoreAudioNative.QueueBuffer* buffer = Current;
        interleaved.CopyTo(new Span<float>(buffer->Data, interleaved.Length));
        buffer->UsedBytes = (uint)(interleaved.Length * sizeof(float));
        return GiveBack();
    }

    /// <inheritdoc/>
    public PcmStep Read(Span<float> interleaved)
    {
        CoreAudioNative.QueueBuffer* buffer = Current;
        int samples = Math.Min(CurrentSamples(buffer) - _bufferUsedSamples, interleaved.Length / Format.Channels);
        new ReadOnlySpan<float>(buffer->Data + _bufferUsedSamples * Format.Channels, samples * Format.Channels).CopyTo(interleaved);
        _bufferUsedSamples += samples;
        PcmStep step = _bufferUsedSamples == CurrentSamples(buffer) ? GiveBack() : PcmStep.Idle;
        return step with { Samples = samples };
    }

    /// <inheritdoc/>
    public void Halt()
    {
        if (_queue != 0)
            _ = CoreAudioNative.Stop(_queue, 1);
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        // Disposing at once waits for a callback that is running, so none can follow it.
        nint queue = Interlocked.Exchange(ref _queue, 0);
        bool isGone = queue == 0 || CoreAudioNative.Dispose(queue, 1) == 0;

        // A queue that would not go may call back: it has to find its handle. The semaphore holds nothing of the system's.
        if (isGone && _self.IsAllocated)
            _self.Free();
    }

    /// <inheritdoc/>
    public string Describe(PcmStep step) => $"error {step.Code}";

    private CoreAudioNative.QueueBuffer* Current =>
        (CoreAudioNative.QueueBuffer*)_returned[_usedCount % _returned.Length];

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void Played(nint user, nint queue, CoreAudioNative.QueueBuffer* buffer) => Return(user, buffer);

    [UnmanagedCallersOnly(CallConvs = [typeof(CallConvCdecl)])]
    private static void Recorded(
        nint user, nint queue, CoreAudioNative.QueueBuffer* buffer, nint time, uint packets, nint descriptions) => Return(user, buffer);

    private static void Return(nint user, CoreAudioNative.QueueBuffer* buffer)
    {
        if (GCHandle.FromIntPtr(user).Target is CoreAudioPcm pcm)
            pcm.Return(buffer);
    }

    private void Return(CoreAudioNative.QueueBuffer* buffer)
    {
        _returned[_returnedCount % _returned.Length] = (nint)buffer;
        Volatile.Write(ref _returnedCount, _returnedCount + 1);
        _ready.Release();
    }

    private int Open(string? deviceId)
    {
        uint sampleBytes = (uint)(sizeof(float) * Format.Channels);
        var description = new CoreAudioNative.StreamDescription
        {
            SampleRateHz = Format.SampleRateHz,
            FormatId = CoreAudioNative.LinearPcm,
            FormatFlags = CoreAudioNative.FlagsFloatPacked,
            BytesPerPacket = sampleBytes,
            SamplesPerPacket = 1,
            BytesPerSample = sampleBytes,
            Channels = (uint)Format.Channels,
            BitsPerChannel = 8 * sizeof(float),
        };
        nint user = GCHandle.ToIntPtr(_self);
        int error = _direction == LineDirection.Output
            ? CoreAudioNative.NewOutput(in description, &Played, user, 0, 0, 0, out _queue)
            : CoreAudioNative.NewInput(in description, &Recorded, user, 0, 0, 0, out _queue);
        if (error == 0 && deviceId is not null)
        {
            nint uid = CoreAudioNative.MakeString(deviceId);
            error = CoreAudioNative.SetProperty(_queue, CoreAudioNative.CurrentDevice, in uid, (uint)sizeof(nint));
            CoreAudioNative.Release(uid);
        }

        for (int i = 0; i < Format.Periods && error == 0; i++)
        {
            error = CoreAudioNative.AllocateBuffer(_queue, sampleBytes * (uint)Format.PeriodSamples, out CoreAudioNative.QueueBuffer* buffer);
            if (error != 0)
                break;
            if (_direction == LineDirection.Output)
            {
                new Span<float>(buffer->Data, Format.PeriodSamples * Format.Channels).Clear();
                buffer->UsedBytes = sampleBytes * (uint)Format.PeriodSamples;
            }

            error = CoreAudioNative.Enqueue(_queue, buffer, 0, 0);
        }

        if (error == 0 && _direction == LineDirection.Output)
            error = CoreAudioNative.Start(_queue, 0);

        return error;
    }

    private int CurrentSamples(CoreAudioNative.QueueBuffer* buffer) =>
        (int)(buffer->UsedBytes / sizeof(float)) / Format.Channels;

    private PcmStep GiveBack()
    {
        int error = CoreAudioNative.Enqueue(_queue, Current, 0, 0);
        _usedCount++;
        _bufferUsedSamples = 0;
        _haveBuffer = false;
        return Answer(error);
    }

    private static PcmStep Answer(int error) => error == 0 ? PcmStep.Idle : new PcmStep(PcmState.Lost, 0, error);
}
