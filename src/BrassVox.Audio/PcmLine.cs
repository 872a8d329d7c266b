namespace BrassVox.Audio;

/// <summary>
/// The one line there is: a sound thread over any <see cref="IPcm"/>. It ends exactly once, with the first reason, even
/// when the device is dead and can be neither stopped nor closed.
/// </summary>
internal sealed class PcmLine : IAudioLine
{
    /// <summary>A device that moves nothing for this long is taken for lost.</summary>
    internal const int StallMs = 1500;

    private const int WaitMs = 50;
    private const int WatchMs = 250;
    private static readonly TimeSpan LongestStop = TimeSpan.FromSeconds(1.5);

    private readonly IPcm _pcm;
    private readonly FillBlock? _fill;
    private readonly TakeBlock? _take;
    private readonly OutputGuard? _guard;
    private readonly TimeProvider _time;
    private readonly float[] _block;
    private readonly TaskCompletionSource<LineEnd> _completion = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource _threadLeft = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Lock _gate = new();
    private ITimer? _watch;
    private bool _started;
    private volatile bool _ended;
    private volatile bool _stopping;
    private volatile bool _inCallback;
    private long _movedSamples;
    private long _movedAtLastWatch;
    private int _idleMs;

    private PcmLine(IPcm pcm, FillBlock? fill, TakeBlock? take, bool guarded, TimeProvider time)
    {
        _pcm = pcm;
        _fill = fill;
        _take = take;
        _time = time;
        Name = pcm.Name;
        Granted = pcm.Format;
        _guard = guarded ? new OutputGuard(Granted) : null;
        _block = new float[Granted.PeriodSamples * Granted.Channels];
    }

    /// <inheritdoc/>
    public string Name { get; }

    /// <inheritdoc/>
    public LineFormat Granted { get; }

    /// <inheritdoc/>
    public long DropoutCount => _pcm.DropoutCount;

    /// <inheritdoc/>
    public Task<LineEnd> Completion => _completion.Task;

    /// <inheritdoc/>
    public string? FaultMessage { get; private set; }

    /// <summary>How the system runs the sound thread.</summary>
    internal ThreadPriorityGrant Priority { get; private set; }

    /// <summary>The last stage before the device; null where there is no device to guard.</summary>
    internal OutputGuard? Guard => _guard;

    /// <summary>A line that plays.</summary>
    /// <param name="pcm">Device; the line owns it from now on.</param>
    /// <param name="fill">Called for each block.</param>
    /// <param name="guarded">True to ramp and hold what goes out, as every real device must be.</param>
    /// <param name="time">Clock of the watchdog.</param>
    internal static PcmLine Output(IPcm pcm, FillBlock fill, bool guarded, TimeProvider time) =>
        new(pcm, fill, null, guarded, time);

    /// <summary>A line that records.</summary>
    /// <param name="pcm">Device; the line owns it from now on.</param>
    /// <param name="take">Called for each block.</param>
    /// <param name="time">Clock of the watchdog.</param>
    internal static PcmLine Input(IPcm pcm, TakeBlock take, TimeProvider time) => new(pcm, null, take, false, time);

    /// <inheritdoc/>
    public void Start()
    {
        lock (_gate)
        {
            if (_started || _stopping)
                throw new InvalidOperationException("A line starts once; open another to start again.");
            _started = true;
            var thread = new Thread(Run) { IsBackground = true, Name = _fill is null ? "BrassVox in" : "BrassVox out" };
            thread.Start();
            TimeSpan watch = TimeSpan.FromMilliseconds(WatchMs);
            _watch = _time.CreateTimer(_ => Watch(), null, watch, watch);
        }
    }

    /// <inheritdoc/>
    public async Task StopAsync()
    {
        bool running;
        lock (_gate)
        {
            running = _started;
            if (!_started && !_stopping)
                CloseQuietly();
            _stopping = true;
        }

        if (!running)
        {
            End(LineEnd.Stopped, null);
            return;
        }

        try
        {
            await _threadLeft.Task.WaitAsync(LongestStop, _time).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            End(LineEnd.DeviceLost, $"\"{Name}\" did not answer when it was asked to stop. Open it again, or choose another device.");
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync() => await StopAsync().ConfigureAwait(false);

    private void Run()
    {
        if (_pcm.KeepsTime)
            Priority = SoundThread.Raise();
        try
        {
            PcmStep step = _pcm.Start();
            if (step.State == PcmState.Good)
                step = _fill is not null ? Play(_fill) : Record(_take!);
            End(step);
        }
        catch (Exception fault)
        {
            // The callback or the device broke its promise not to throw: the line ends, the program does not.
            End(LineEnd.Faulted, $"\"{Name}\" was stopped by a fault: {fault.Message}");
        }
        finally
        {
            CloseQuietly();
            _threadLeft.TrySetResult();
        }
    }

    private PcmStep Play(FillBlock fill)
    {
        int silenceLeft = -1;
        while (true)
        {
            if (_ended || (_stopping && (_guard is null || silenceLeft == 0)))
                return new PcmStep(PcmState.Good);
            if (_stopping)
                _guard!.Close();

            PcmStep step = _pcm.Wait(WaitMs);
            int wanted = step.Samples;
            while (step.State == PcmState.Good && wanted > 0)
            {
                int count = Math.Min(wanted, Granted.PeriodSamples);
                Span<float> block = _block.AsSpan(0, count * Granted.Channels);
                if (_guard is { IsClosed: true })
                {
                    // The ramp is over; one buffer of silence pushes its end out of the device.
                    if (silenceLeft < 0)
                        silenceLeft = Granted.PeriodSamples * Granted.Periods;
                    silenceLeft = Math.Max(0, silenceLeft - count);
                    block.Clear();
                }
                else
                {
                    _inCallback = true;
                    fill(block);
                    _inCallback = false;
                    _guard?.Process(block);
                }

                step = _pcm.Write(block);
                wanted -= count;
                Moved(count);
            }

            if (step.State != PcmState.Good)
                return step;
            if (RateChanged())
                return new PcmStep(PcmState.Lost);
        }
    }

    private PcmStep Record(TakeBlock take)
    {
        while (!_stopping)
        {
            PcmStep step = _pcm.Wait(WaitMs);
            int ready = step.Samples;
            while (step.State == PcmState.Good && ready > 0)
            {
                int count = Math.Min(ready, Granted.PeriodSamples);
                step = _pcm.Read(_block.AsSpan(0, count * Granted.Channels));
                if (RateChanged() || step.Samples == 0)
                    break;
                ready -= step.Samples;
                _inCallback = true;
                take(_block.AsSpan(0, step.Samples * Granted.Channels));
                _inCallback = false;
                Moved(step.Samples);
            }

            if (step.State != PcmState.Good)
                return step;
            if (RateChanged())
                return new PcmStep(PcmState.Lost);
        }

        return new PcmStep(PcmState.Good);
    }

    private bool RateChanged() => _pcm.Format.SampleRateHz != Granted.SampleRateHz;

    private void Moved(int samples) => Volatile.Write(ref _movedSamples, _movedSamples + samples);

    // Runs on a timer's thread. Counts ticks, not clock time, so that a suspended machine is not a stalled device.
    private void Watch()
    {
        long moved = Volatile.Read(ref _movedSamples);
        if (moved != _movedAtLastWatch || _inCallback)
        {
            _movedAtLastWatch = moved;
            _idleMs = 0;
            return;
        }

        _idleMs += WatchMs;
        if (_idleMs < StallMs)
            return;
        _stopping = true;
        End(LineEnd.DeviceLost, $"\"{Name}\" has stopped answering. Open it again, or choose another device.");
    }

    private void End(PcmStep step)
    {
        switch (step.State)
        {
            case PcmState.Lost when RateChanged():
                End(LineEnd.DeviceLost, $"\"{Name}\": the device changed its rate from {Granted.SampleRateHz} to {_pcm.Format.SampleRateHz} Hz. Open it again.");
                break;
            case PcmState.Lost:
                End(LineEnd.DeviceLost, $"\"{Name}\" went away: {_pcm.Describe(step)}. Open it again, or choose another device.");
                break;
            case PcmState.Failed:
                End(LineEnd.Faulted, $"\"{Name}\" failed: {_pcm.Describe(step)}.");
                break;
            default:
                End(LineEnd.Stopped, null);
                break;
        }
    }

    private void End(LineEnd end, string? message)
    {
        lock (_gate)
        {
            if (_ended)
                return;
            _ended = true;
            FaultMessage = message;
            _watch?.Dispose();
        }

        _completion.TrySetResult(end);
    }

    private void CloseQuietly()
    {
        try
        {
            _pcm.Halt();
        }
        catch (Exception)
        {
            // The line's first reason stands; a dead device often cannot even be stopped.
        }

        try
        {
            _pcm.Dispose();
        }
        catch (Exception)
        {
            // As above.
        }
    }
}
