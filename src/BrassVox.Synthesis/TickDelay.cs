using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>Holds ticks back until the <see cref="PeakGuard"/> knows their gain.</summary>
internal sealed class TickDelay
{
    private readonly float[] _ring = new float[PeakGuard.LatencyTicks * PeakGuard.TickSamples];
    private int _at;

    internal void Reset()
    {
        Array.Clear(_ring);
        _at = 0;
    }

    /// <summary>Swaps a tick for the one that went in before it, scaled by a gain that moves in a straight line.</summary>
    internal void Exchange(Span<float> tick, float gainFrom, float gainTo)
    {
        Span<float> slot = _ring.AsSpan(_at, PeakGuard.TickSamples);
        for (int i = 0; i < tick.Length; i += Vector<float>.Count)
        {
            Vector<float> now = new(tick[i..]);
            new Vector<float>(slot[i..]).CopyTo(tick[i..]);
            now.CopyTo(slot[i..]);
        }

        if (gainFrom != 1 || gainTo != 1)
        {
            Lanes.Scale(tick, gainFrom, gainTo);
        }

        _at = (_at + PeakGuard.TickSamples) % _ring.Length;
    }
}
