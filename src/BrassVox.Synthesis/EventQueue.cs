namespace BrassVox.Synthesis;

/// <summary>Hands events from one producer to the sound thread without locks and keeps those to come in order of time.</summary>
internal sealed class EventQueue
{
    private const int Capacity = 512;

    // The last places are kept for silence: however much is scheduled, a tacet gets through.
    private const int KeptForSilence = 32;
    private readonly PairEvent[] _ring = new PairEvent[Capacity];
    private readonly PairEvent[] _waiting = new PairEvent[Capacity];
    private int _written;
    private int _collected;
    private int _done;
    private int _waitingCount;

    /// <summary>Any one thread at a time. False when full.</summary>
    internal bool TryPost(in PairEvent pairEvent)
    {
        int written = _written;
        int limit = pairEvent.Kind is PairEventKind.Tacet or PairEventKind.Stop ? Capacity : Capacity - KeptForSilence;
        if (written - Volatile.Read(ref _done) >= limit)
        {
            return false;
        }

        _ring[written & (Capacity - 1)] = pairEvent;
        Volatile.Write(ref _written, written + 1);
        return true;
    }

    /// <summary>Sound thread: sorts arrivals in; those of one sample keep the order in which they were posted.</summary>
    internal void Collect()
    {
        int written = Volatile.Read(ref _written);
        while (_collected != written)
        {
            ref PairEvent slot = ref _ring[_collected & (Capacity - 1)];
            PairEvent arrival = slot;
            slot = default;
            _collected++;
            int at = _waitingCount++;
            while (at > 0 && _waiting[at - 1].AtSample > arrival.AtSample)
            {
                _waiting[at] = _waiting[at - 1];
                at--;
            }

            _waiting[at] = arrival;
        }
    }

    /// <summary>Sample of the next event, or <see cref="long.MaxValue"/>.</summary>
    internal long NextSample => _waitingCount == 0 ? long.MaxValue : _waiting[0].AtSample;

    internal PairEvent Take()
    {
        PairEvent first = _waiting[0];
        _waitingCount--;
        Array.Copy(_waiting, 1, _waiting, 0, _waitingCount);
        _waiting[_waitingCount] = default;
        Volatile.Write(ref _done, _done + 1);
        return first;
    }

    /// <summary>Drops everything. Only while nothing renders and nothing is posted.</summary>
    internal void Clear()
    {
        Array.Clear(_ring);
        Array.Clear(_waiting);
        _written = 0;
        _collected = 0;
        _done = 0;
        _waitingCount = 0;
    }
}
