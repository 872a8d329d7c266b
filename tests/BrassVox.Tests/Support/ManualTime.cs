namespace BrassVox.Tests.Support;

/// <summary>A clock that stands still until a test moves it; its timers ring on the thread that moves it.</summary>
internal sealed class ManualTime : TimeProvider
{
    private readonly Lock _gate = new();
    private readonly List<ManualTimer> _timers = [];
    private long _nowTicks;
    private int _readings;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    /// <summary>How often it has been read: tells a test that a thread which goes by it runs.</summary>
    internal int Readings => Volatile.Read(ref _readings);

    public override long GetTimestamp()
    {
        Interlocked.Increment(ref _readings);
        return Interlocked.Read(ref _nowTicks);
    }

    public override DateTimeOffset GetUtcNow() => DateTimeOffset.UnixEpoch.AddTicks(GetTimestamp());

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
    {
        var timer = new ManualTimer(this, callback, state);
        timer.Change(dueTime, period);
        lock (_gate)
            _timers.Add(timer);
        return timer;
    }

    /// <summary>Moves the clock on and rings every timer that falls due on the way, in order.</summary>
    internal void Advance(TimeSpan by)
    {
        long end = GetTimestamp() + by.Ticks;
        while (true)
        {
            ManualTimer? next;
            lock (_gate)
                next = _timers.Where(timer => timer.DueTicks <= end).MinBy(timer => timer.DueTicks);
            if (next is null)
                break;
            Interlocked.Exchange(ref _nowTicks, Math.Max(GetTimestamp(), next.DueTicks));
            next.Ring();
        }

        Interlocked.Exchange(ref _nowTicks, end);
    }

    private sealed class ManualTimer(ManualTime time, TimerCallback callback, object? state) : ITimer
    {
        private TimeSpan _period;

        internal long DueTicks { get; private set; } = long.MaxValue;

        public bool Change(TimeSpan dueTime, TimeSpan period)
        {
            _period = period;
            DueTicks = dueTime == Timeout.InfiniteTimeSpan ? long.MaxValue : time.GetTimestamp() + dueTime.Ticks;
            return true;
        }

        public void Dispose()
        {
            DueTicks = long.MaxValue;
            lock (time._gate)
                time._timers.Remove(this);
        }

        public ValueTask DisposeAsync()
        {
            Dispose();
            return ValueTask.CompletedTask;
        }

        internal void Ring()
        {
            DueTicks = _period <= TimeSpan.Zero ? long.MaxValue : DueTicks + _period.Ticks;
            callback(state);
        }
    }
}
