using System.Globalization;
using BrassVox.Audio.Linux;
using BrassVox.Audio.MacOS;
using BrassVox.Audio.Windows;

namespace BrassVox.Audio;

/// <summary>The sound of the machine it runs on. Making one touches no device.</summary>
public sealed class AudioSystem : IAudioSystem
{
    private const double LongestQuietDelayMs = 100;

    private static readonly TimeSpan LongestCall = TimeSpan.FromSeconds(4);

    private readonly IBackEnd _backEnd;
    private readonly TimeProvider _time;

    /// <summary>Picks the back end for this operating system.</summary>
    public AudioSystem()
        : this(ForThisMachine(), TimeProvider.System)
    {
    }

    /// <summary>Uses a given back end and clock.</summary>
    /// <param name="backEnd">Back end.</param>
    /// <param name="time">Clock of the silent line and of the watchdogs.</param>
    internal AudioSystem(IBackEnd backEnd, TimeProvider time)
    {
        _backEnd = backEnd;
        _time = time;
    }

    /// <inheritdoc/>
    public string BackEnd => _backEnd.Name;

    /// <inheritdoc/>
    public IReadOnlyList<AudioDevice> ListDevices()
    {
        try
        {
            return Bounded(_backEnd.ListDevices, late => { }) ?? [];
        }
        catch (Exception)
        {
            // A back end that cannot even list has no device to offer; opening one says why.
            return [];
        }
    }

    /// <inheritdoc/>
    public LineOpening OpenOutput(LineRequest request, FillBlock fill)
    {
        PcmOpening opening = Open(LineDirection.Output, Checked(request));
        IAudioLine line = opening.Pcm is { } pcm
            ? PcmLine.Output(pcm, fill, guarded: true, _time)
            : PcmLine.Output(new SilentPcm(request, _time), fill, guarded: false, _time);
        return new LineOpening(line, opening.Pcm is not null, opening.Message);
    }

    /// <inheritdoc/>
    public LineOpening OpenInput(LineRequest request, TakeBlock take)
    {
        PcmOpening opening = Open(LineDirection.Input, Checked(request));
        IAudioLine line = PcmLine.Input(opening.Pcm ?? new SilentPcm(request, _time), take, _time);
        return new LineOpening(line, opening.Pcm is not null, opening.Message);
    }

    private static IBackEnd ForThisMachine()
    {
        if (OperatingSystem.IsLinux())
            return new AlsaBackEnd();
        if (OperatingSystem.IsWindows())
            return new WasapiBackEnd();
        return OperatingSystem.IsMacOS() ? new CoreAudioBackEnd() : new NoBackEnd();
    }

    private static LineRequest Checked(LineRequest request)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(request.SampleRateHz, 8000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(request.SampleRateHz, 384000);
        ArgumentOutOfRangeException.ThrowIfLessThan(request.Channels, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(request.Channels, 32);
        ArgumentOutOfRangeException.ThrowIfLessThan(request.PeriodSamples, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(request.PeriodSamples, 65536);
        return request;
    }

    private PcmOpening Open(LineDirection direction, LineRequest request)
    {
        string what = direction == LineDirection.Output ? "playback" : "recording";
        try
        {
            PcmOpening? opening = Bounded(() => _backEnd.Open(direction, request), late => late.Pcm?.Dispose());
            if (opening?.Pcm is { } pcm && pcm.Format.BufferMs > LongestQuietDelayMs)
                return opening with { Message = string.Create(CultureInfo.InvariantCulture, $"\"{pcm.Name}\" delays the sound by {pcm.Format.BufferMs:0} ms. Ask for shorter blocks, or choose another device.") };
            return opening
                ?? new PcmOpening(null, $"no {what} device could be opened: the sound system has not answered for {LongestCall.TotalSeconds:0} s. Restart the sound server, or choose another device.");
        }
        catch (Exception fault)
        {
            return new PcmOpening(null, $"no {what} device could be opened: {fault.Message}");
        }
    }

    // A sound server that hangs must not hang the program: the call is left behind, and what it opens late is closed.
    private T? Bounded<T>(Func<T> call, Action<T> closeLate)
        where T : class
    {
        Task<T> task = Task.Factory.StartNew(Raised, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        try
        {
            return task.WaitAsync(LongestCall, _time).GetAwaiter().GetResult();
        }
        catch (TimeoutException)
        {
            task.ContinueWith(
                late => closeLate(late.Result),
                CancellationToken.None,
                TaskContinuationOptions.OnlyOnRanToCompletion,
                TaskScheduler.Default);
            return null;
        }

        T Raised()
        {
            SoundThread.RaiseForOpening();
            return call();
        }
    }
}
