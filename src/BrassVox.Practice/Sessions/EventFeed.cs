using BrassVox.Synthesis;

namespace BrassVox.Practice.Sessions;

/// <summary>
/// Hands events to an engine a little ahead of their time, in order, so that silence can be had at once:
/// what has not been handed over is simply forgotten. One thread: the session's.
/// </summary>
internal sealed class EventFeed(IPairEngine engine, int sampleRateHz)
{
    private const double AheadSeconds = 0.12;

    private readonly Queue<PairEvent> _waiting = new();
    private long _lastStart = -1;

    /// <summary>Adds events, in order of time and later than all that were added before.</summary>
    public void Add(IEnumerable<PairEvent> events)
    {
        foreach (PairEvent pairEvent in events)
        {
            _waiting.Enqueue(pairEvent);
        }

        Pump();
    }

    /// <summary>Hands over what is due soon and what the engine has room for. Call at least 20 times a second while anything is planned.</summary>
    public void Pump()
    {
        long horizon = engine.SamplesRendered + (long)(AheadSeconds * sampleRateHz);
        while (_waiting.TryPeek(out PairEvent next) && next.AtSample <= horizon && engine.TryPost(next))
        {
            _waiting.Dequeue();
            _lastStart = next.Kind == PairEventKind.Start ? next.AtSample : _lastStart;
        }
    }

    /// <summary>Silence now, and nothing later.</summary>
    public void Tacet()
    {
        _waiting.Clear();
        engine.TryPost(PairEvent.Tacet());
        if (_lastStart > engine.SamplesRendered)
        {
            engine.TryPost(PairEvent.Tacet(_lastStart));
        }
    }
}
