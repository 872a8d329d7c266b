namespace BrassVox.Analysis.Loudness;

/// <summary>Loudness in LUFS of a mono or stereo stream: momentary, short-term, integrated, and its range.</summary>
/// <remarks>
/// One thread at a time. Memory grows by 16 bytes for each 100 ms. Each channel counts fully (front channels).
/// Source: ITU-R BS.1770-4 (blocks of 400 ms, three quarters overlapping; gates at -70 LUFS and 10 LU under); EBU Tech 3341
/// (momentary, short-term), EBU Tech 3342 (range: 10th to 95th percentile of the short-term values, gates at -70 LUFS and 20 LU under).
/// </remarks>
public sealed class LoudnessMeter
{
    private const double OffsetDb = -0.691;
    private const double SilentLufs = -70.0;
    private const int StepsMomentary = 4;
    private const int StepsShortTerm = 30;

    private readonly KWeighting[] _filters;
    private readonly int _stepSamples;
    private readonly List<double> _steps = [];
    private double _sum;
    private int _filled;

    /// <summary>Prepares a stream.</summary>
    /// <param name="sampleRateHz">Rate in Hz, 8000 to 384 000.</param>
    /// <param name="channels">1 or 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public LoudnessMeter(int sampleRateHz, int channels)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(channels, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(channels, 2);
        _filters = new KWeighting[channels];
        for (int c = 0; c < channels; c++)
        {
            _filters[c] = new KWeighting(sampleRateHz);
        }

        _stepSamples = (int)Math.Round(0.1 * sampleRateHz);
    }

    /// <summary>Loudness of the last 400 ms in LUFS; negative infinity before they have passed or in silence.</summary>
    public double MomentaryLufs => Lufs(Mean(_steps.Count, StepsMomentary));

    /// <summary>Loudness of the last 3 s in LUFS; negative infinity before they have passed or in silence.</summary>
    public double ShortTermLufs => Lufs(Mean(_steps.Count, StepsShortTerm));

    /// <summary>Largest momentary loudness so far in LUFS.</summary>
    public double LargestMomentaryLufs { get; private set; } = double.NegativeInfinity;

    /// <summary>Largest short-term loudness so far in LUFS.</summary>
    public double LargestShortTermLufs { get; private set; } = double.NegativeInfinity;

    /// <summary>Loudness of the whole stream so far in LUFS, pauses left out; negative infinity when nothing is over -70 LUFS.</summary>
    public double IntegratedLufs
    {
        get
        {
            double[] blocks = Over(Blocks(StepsMomentary), SilentLufs);
            return Lufs(Average(Over(blocks, Lufs(Average(blocks)) - 10.0)));
        }
    }

    /// <summary>Loudness range of the stream so far in LU; 0 when too little sounded.</summary>
    public double RangeLu
    {
        get
        {
            double[] blocks = Over(Blocks(StepsShortTerm), SilentLufs);
            double[] loud = Over(blocks, Lufs(Average(blocks)) - 20.0);
            if (loud.Length == 0)
            {
                return 0.0;
            }

            Array.Sort(loud);
            return Lufs(Percentile(loud, 0.95)) - Lufs(Percentile(loud, 0.10));
        }
    }

    /// <summary>Takes samples.</summary>
    /// <param name="interleaved">Samples, channel by channel; full scale 1; those that are not finite count as 0. A part of an instant at the end is left out.</param>
    public void Push(ReadOnlySpan<float> interleaved)
    {
        for (int i = 0; i + _filters.Length <= interleaved.Length; i += _filters.Length)
        {
            for (int c = 0; c < _filters.Length; c++)
            {
                double weighted = _filters[c].Next(interleaved[i + c]);
                _sum += weighted * weighted;
            }

            if (++_filled == _stepSamples)
            {
                _steps.Add(_sum / _stepSamples);
                _sum = 0.0;
                _filled = 0;
                LargestMomentaryLufs = Math.Max(LargestMomentaryLufs, MomentaryLufs);
                LargestShortTermLufs = Math.Max(LargestShortTermLufs, ShortTermLufs);
            }
        }
    }

    /// <summary>Forgets all that was measured.</summary>
    public void Reset()
    {
        foreach (KWeighting filter in _filters)
        {
            filter.Reset();
        }

        _steps.Clear();
        _sum = 0.0;
        _filled = 0;
        LargestMomentaryLufs = LargestShortTermLufs = double.NegativeInfinity;
    }

    private static double Lufs(double power) => OffsetDb + (10.0 * Math.Log10(power));

    private static double[] Over(double[] powers, double lufs) => [.. powers.Where(power => Lufs(power) > lufs)];

    private static double Average(double[] powers) => powers.Length > 0 ? powers.Average() : 0.0;

    private static double Percentile(double[] sorted, double share) =>
        sorted[(int)Math.Round(share * (sorted.Length - 1))];

    private double[] Blocks(int steps) =>
        [.. Enumerable.Range(steps, Math.Max(0, _steps.Count - steps + 1)).Select(end => Mean(end, steps))];

    private double Mean(int end, int steps)
    {
        if (end < steps)
        {
            return 0.0;
        }

        double sum = 0.0;
        for (int i = end - steps; i < end; i++)
        {
            sum += _steps[i];
        }

        return sum / steps;
    }
}
