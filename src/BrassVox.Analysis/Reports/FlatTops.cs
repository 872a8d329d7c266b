namespace BrassVox.Analysis.Reports;

/// <summary>Where a recording was cut off at its loudest, somewhere between microphone and file: its peaks are flat.</summary>
public static class FlatTops
{
    private const double LeastSeconds = 0.000125;
    private const int LeastSamples = 3;
    private const float Flat = 1e-6f;

    // A low sine in 16 bits has one value at its peak for as long, but comes there by steps of one or two of their 65536.
    private const float LeastStep = 1e-4f;
    private const float LeastPeak = 0.25f;
    private const float ShareOfPeak = 0.9f;

    /// <summary>Stretches that stand still near the largest sample, for 0.125 ms and three samples at least, between steps that no round peak has. Ours; checked on cut and whole tones.</summary>
    /// <param name="mono">Samples, full scale 1; under a quarter of it at the peak nothing is told.</param>
    /// <param name="sampleRateHz">Rate in Hz, &gt; 0.</param>
    /// <returns>How many, and where the first begins in seconds (0 when there is none).</returns>
    /// <exception cref="ArgumentOutOfRangeException">The rate is not positive.</exception>
    public static (int Count, double FirstSeconds) Of(ReadOnlySpan<float> mono, int sampleRateHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHz);
        float peak = 0;
        foreach (float sample in mono)
        {
            peak = float.IsFinite(sample) ? Math.Max(peak, Math.Abs(sample)) : peak;
        }

        (int count, int first) = (0, 0);
        int least = Math.Max(LeastSamples, (int)(LeastSeconds * sampleRateHz));
        for (int from = 0; peak >= LeastPeak && from < mono.Length;)
        {
            int to = from + 1;
            while (to < mono.Length && Math.Abs(mono[from]) >= ShareOfPeak * peak && Math.Abs(mono[to] - mono[from]) <= Flat)
            {
                to++;
            }

            bool isStepped = from > 0 && to < mono.Length && Math.Abs(mono[from] - mono[from - 1]) > LeastStep && Math.Abs(mono[to] - mono[to - 1]) > LeastStep;
            if (isStepped && to - from >= least)
            {
                first = count == 0 ? from : first;
                count++;
            }

            from = to;
        }

        return (count, (double)first / sampleRateHz);
    }
}
