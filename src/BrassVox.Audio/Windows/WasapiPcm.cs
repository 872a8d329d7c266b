using System.Runtime.Versioning;
using NAudio.CoreAudioApi;
using NAudio.Wave;

namespace BrassVox.Audio.Windows;

/// <summary>One Windows device in shared mode, at the rate that Windows mixes at, driven by the device's own event.</summary>
[SupportedOSPlatform("windows")]
internal sealed class WasapiPcm : IPcm
{
    private const double TicksPerSecond = 10_000_000;

    private readonly MMDevice _device;
    private readonly AudioClient _client;
    private readonly EventWaitHandle _ready;
    private readonly LineDirection _direction;
    private readonly int _bufferSamples;
    private nint _packet;
    private int _packetSamples;
    private int _packetUsed;
    private long _dropoutCount;
    private bool _primed;

    private WasapiPcm(MMDevice device, AudioClient client, EventWaitHandle ready, LineDirection direction, LineFormat format)
    {
        _device = device;
        _client = client;
        _ready = ready;
        _direction = direction;
        _bufferSamples = client.BufferSize;
        Format = format;
        Name = device.FriendlyName;
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public bool KeepsTime => true;

    /// <inheritdoc/>
    public LineFormat Format { get; }

    /// <inheritdoc/>
    public long DropoutCount => Interlocked.Read(ref _dropoutCount);

    /// <summary>Opens a device. Throws when it refuses; the error number is the exception's HResult.</summary>
    /// <param name="device">The device; owned from now on, unless this throws.</param>
    /// <param name="direction">Which way the sound goes.</param>
    /// <param name="request">What is wished for.</param>
    /// <param name="raw">True to record without the system's gain control and noise suppression, where the driver can.</param>
    internal static WasapiPcm Open(MMDevice device, LineDirection direction, LineRequest request, bool raw)
    {
        AudioClient client = device.CreateAudioClient();
        var ready = new EventWaitHandle(false, EventResetMode.AutoReset);
        try
        {
            if (raw && client.SupportsAudioClient2)
            {
                // No gain control, no noise or echo suppression: they bend what is to be measured.
                client.SetClientProperties(AudioStreamCategory.Media, AudioClientStreamOptions.Raw);
            }

            // More than two channels only as the device has them: a mixer would fold a channel of its own into the others.
            WaveFormat mix = client.MixFormat;
            int channels = request.Channels <= 2 ? request.Channels : mix.Channels;
            int rateHz = request.IsRateFixed && channels <= 2 ? request.SampleRateHz : mix.SampleRate;
            WaveFormat format = channels <= 2 ? WaveFormat.CreateIeeeFloatWaveFormat(rateHz, channels) : mix;
            int periodSamples = Math.Max(1, (int)Math.Round(client.DefaultDevicePeriod * rateHz / TicksPerSecond));
            long bufferTicks = (long)(TicksPerSecond * request.PeriodSamples * Math.Max(3, request.Periods) / request.SampleRateHz);
            client.Initialize(
                AudioClientShareMode.Shared,
                AudioClientStreamFlags.EventCallback | AudioClientStreamFlags.AutoConvertPcm | AudioClientStreamFlags.SrcDefaultQuality,
                bufferTicks,
                0,
                format,
                Guid.Empty);
            client.SetEventHandle(ready.SafeWaitHandle.DangerousGetHandle());
            int periods = Math.Max(1, client.BufferSize / periodSamples);
            return new WasapiPcm(device, client, ready, direction, new LineFormat(rateHz, channels, periodSamples, periods));
        }
        catch (Exception)
        {
            client.Dispose();
            ready.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public PcmStep Start()
    {
        try
        {
            _client.Start();
            return PcmStep.Idle;
        }
        catch (Exception fault)
        {
            return Fault(fault);
        }
    }

    /// <inheritdoc/>
    public PcmStep Wait(int timeoutMs)
    {
        try
        {
            if (_direction == LineDirection.Input)
                return WaitForPacket(timeoutMs);
            bool isSignalled = _ready.WaitOne(timeoutMs);
            // Asked without a signal too: a device that was pulled out gives none, and says so here.
            int padding = _client.CurrentPadding;
            if (!isSignalled && padding == _bufferSamples)
                return PcmStep.Idle;
            if (padding == 0 && _primed)
                Interlocked.Increment(ref _dropoutCount);
            return new PcmStep(PcmState.Good, _bufferSamples - padding);
        }
        catch (Exception fault)
        {
            return Fault(fault);
        }
    }

    /// <inheritdoc/>
    public unsafe PcmStep Write(ReadOnlySpan<float> interleaved)
    {
        try
        {
            int samples = interleaved.Length / Format.Channels;
            nint buffer = _client.AudioRenderClient.GetBuffer(samples);
            interleaved.CopyTo(new Span<float>((void*)buffer, interleaved.Length));
            _client.AudioRenderClient.ReleaseBuffer(samples, AudioClientBufferFlags.None);
            _primed = true;
            return PcmStep.Idle;
        }
        catch (Exception fault)
        {
            return Fault(fault);
        }
    }

    /// <inheritdoc/>
    public unsafe PcmStep Read(Span<float> interleaved)
    {
        try
        {
            int samples = Math.Min(_packetSamples - _packetUsed, interleaved.Length / Format.Channels);
            int values = samples * Format.Channels;
            if (_packet == 0)
                interleaved[..values].Clear();
            else
                new ReadOnlySpan<float>((float*)_packet + _packetUsed * Format.Channels, values).CopyTo(interleaved);
            _packetUsed += samples;
            if (_packetUsed == _packetSamples)
            {
                _client.AudioCaptureClient.ReleaseBuffer(_packetSamples);
                _packetSamples = _packetUsed = 0;
            }

            return new PcmStep(PcmState.Good, samples);
        }
        catch (Exception fault)
        {
            return Fault(fault);
        }
    }

    /// <inheritdoc/>
    public void Halt() => _client.Stop();

    /// <inheritdoc/>
    public void Dispose()
    {
        _client.Dispose();
        _ready.Dispose();
        _device.Dispose();
    }

    /// <inheritdoc/>
    public string Describe(PcmStep step) => $"it {WasapiError.Explain(step.Code)}";

    private static PcmStep Fault(Exception fault) =>
        new(WasapiError.IsLoss(fault.HResult) ? PcmState.Lost : PcmState.Failed, 0, fault.HResult);

    private PcmStep WaitForPacket(int timeoutMs)
    {
        if (_packetSamples == 0)
        {
            if (_client.AudioCaptureClient.GetNextPacketSize() == 0 && !_ready.WaitOne(timeoutMs))
                return PcmStep.Idle;
            if (_client.AudioCaptureClient.GetNextPacketSize() == 0)
                return PcmStep.Idle;
            nint buffer = _client.AudioCaptureClient.GetBuffer(out _packetSamples, out AudioClientBufferFlags flags);
            // The first packet after a start is always marked as a break.
            if (flags.HasFlag(AudioClientBufferFlags.DataDiscontinuity) && _primed)
                Interlocked.Increment(ref _dropoutCount);
            _primed = true;
            _packet = flags.HasFlag(AudioClientBufferFlags.Silent) ? 0 : buffer;
        }

        return new PcmStep(PcmState.Good, _packetSamples - _packetUsed);
    }
}
