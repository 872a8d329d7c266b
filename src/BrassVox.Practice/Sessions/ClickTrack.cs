namespace BrassVox.Practice.Sessions;

/// <summary>
/// Clicks at samples of the engine's clock, for a channel of their own or mixed in. <see cref="Plan"/> on the session's thread;
/// <see cref="Render"/> on the sound thread: never allocates, locks, waits or throws.
/// </summary>
internal sealed class ClickTrack
{
    private const double BurstSeconds = 0.03;
    private const double DecaySeconds = 0.006;
    private const double BeatHz = 1000;
    private const double FirstHz = 1500;
    private const float Peak = 0.25f;

    private readonly float[] _beat;
    private readonly float[] _first;
    private Planned _planned = new([], []);

    public ClickTrack(int sampleRateHz)
    {
        _beat = Burst(sampleRateHz, BeatHz);
        _first = Burst(sampleRateHz, FirstHz);
    }

    /// <summary>Replaces all clicks.</summary>
    /// <param name="samples">When, rising.</param>
    /// <param name="isFirst">Which of them begin a bar.</param>
    public void Plan(long[] samples, bool[] isFirst) => Volatile.Write(ref _planned, new Planned(samples, isFirst));

    /// <summary>Overwrites a block with the clicks that fall into it.</summary>
    /// <param name="startSample">Engine sample of the block's first sample.</param>
    /// <param name="output">The block.</param>
    public void Render(long startSample, Span<float> output)
    {
        output.Clear();
        Planned planned = Volatile.Read(ref _planned);
        long end = startSample + output.Length;
        int at = FirstAfter(planned.Samples, startSample - _beat.Length);
        for (; at < planned.Samples.Length && planned.Samples[at] < end; at++)
        {
            float[] burst = planned.IsFirst[at] ? _first : _beat;
            long from = Math.Max(startSample, planned.Samples[at]);
            long to = Math.Min(end, planned.Samples[at] + burst.Length);
            for (long i = from; i < to; i++)
            {
                output[(int)(i - startSample)] += burst[i - planned.Samples[at]];
            }
        }
    }

    private static int FirstAfter(long[] samples, long sample)
    {
        int low = 0;
        int high = samples.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = samples[middle] <= sample ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    // A sine that dies away and begins and ends at zero.
    private static float[] Burst(int sampleRateHz, double hz)
    {
        float[] burst = new float[(int)(BurstSeconds * sampleRateHz)];
        for (int i = 0; i < burst.Length; i++)
        {
            double seconds = (double)i / sampleRateHz;
            double fade = 1 - ((double)i / burst.Length);
            burst[i] = (float)(Peak * fade * Math.Exp(-seconds / DecaySeconds) * Math.Sin(2 * Math.PI * hz * seconds));
        }

        return burst;
    }

    private sealed record Planned(long[] Samples, bool[] IsFirst);
}
