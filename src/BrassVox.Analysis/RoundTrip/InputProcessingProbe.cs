namespace BrassVox.Analysis.RoundTrip;

/// <summary>
/// Finds out whether a microphone's path turns the gain by itself or removes steady sound: play <see cref="Signal"/>, record
/// meanwhile, give the recording to <see cref="Measure"/>. A soft tone, a loud one, the soft one again, then noise, each steady.
/// </summary>
/// <remarks>Immutable once made. What a steady source loses in seconds, the path took: no player is needed. Method and limits are ours.</remarks>
public sealed class InputProcessingProbe
{
    private const double SoftSeconds = 1.4;
    private const double LoudSeconds = 3.0;
    private const double NoiseSeconds = 3.6;
    private const double LateSeconds = 0.45;
    private const double WindowSeconds = 0.4;
    private const double SoftUnderDb = 18;
    private const double EdgeSeconds = 0.02;
    private const double HeardOverDb = 10;
    private const double ToneHz = 440;
    private static readonly double[] Partials = [1, 2, 3, 5, 8];
    private readonly float[] _signal;

    /// <summary>Prepares the sounds.</summary>
    /// <param name="sampleRateHz">Rate of both directions in Hz, 8000 to 192 000.</param>
    /// <param name="levelDbfs">Peak level in dB re full scale, -60 to -6.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public InputProcessingProbe(int sampleRateHz, double levelDbfs = -20.0)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sampleRateHz, 192_000);
        ArgumentOutOfRangeException.ThrowIfLessThan(levelDbfs, -60.0);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(levelDbfs, -6.0);
        SampleRateHz = sampleRateHz;
        double loud = Math.Pow(10, levelDbfs / 20);
        double soft = loud * Math.Pow(10, -SoftUnderDb / 20);
        _signal = new float[At(LengthSeconds)];
        WriteTone(0, SoftSeconds, soft);
        WriteTone(SoftSeconds, LoudSeconds, loud);
        WriteTone(SoftSeconds + LoudSeconds, SoftSeconds, soft);
        WriteNoise(NoiseStartSeconds, NoiseSeconds, loud);
    }

    /// <summary>Length of the sounds in seconds.</summary>
    public static double LengthSeconds => NoiseStartSeconds + NoiseSeconds;

    /// <summary>Rate in Hz.</summary>
    public int SampleRateHz { get; }

    /// <summary>What is to be played, mono, full scale 1.</summary>
    public ReadOnlyMemory<float> Signal => _signal;

    private static double NoiseStartSeconds => (2 * SoftSeconds) + LoudSeconds;

    /// <summary>Reads a recording that began with the signal; it may come up to 0.4 s late. Not on the sound thread.</summary>
    /// <param name="recorded">Mono samples, full scale 1.</param>
    public InputProcessingReading Measure(ReadOnlySpan<float> recorded)
    {
        if (recorded.Length < _signal.Length)
        {
            return default;
        }

        double before = LevelDb(recorded, LateSeconds + 0.1);
        double early = LevelDb(recorded, SoftSeconds + LateSeconds);
        double late = LevelDb(recorded, SoftSeconds + LoudSeconds - WindowSeconds);
        double after = LevelDb(recorded, SoftSeconds + LoudSeconds + LateSeconds + 0.1);
        double noiseEarly = LevelDb(recorded, NoiseStartSeconds + LateSeconds);
        double noiseLate = LevelDb(recorded, NoiseStartSeconds + NoiseSeconds - WindowSeconds);
        double floor = LevelDb(recorded, 0, 0.01);
        bool heard = early > -90 && early > floor + HeardOverDb && noiseEarly > -100;
        return heard ? new InputProcessingReading(true, late - early, after - before, noiseLate - noiseEarly) : default;
    }

    private int At(double seconds) => (int)(seconds * SampleRateHz);

    private double LevelDb(ReadOnlySpan<float> samples, double fromSeconds, double seconds = WindowSeconds)
    {
        double sum = 0;
        ReadOnlySpan<float> window = samples.Slice(At(fromSeconds), At(seconds));
        foreach (float sample in window)
        {
            sum += (double)sample * sample;
        }

        return 10 * Math.Log10((sum / window.Length) + 1e-20);
    }

    private static double Edge(double since, double seconds) => Math.Clamp(Math.Min(since, seconds - since) / EdgeSeconds, 0, 1);

    private void WriteTone(double from, double seconds, double amplitude)
    {
        for (int i = At(from); i < At(from + seconds); i++)
        {
            double t = (double)i / SampleRateHz;
            double sum = 0;
            foreach (double partial in Partials)
            {
                sum += Math.Sin((Math.Tau * ToneHz * partial * t) + (partial * partial));
            }

            _signal[i] = (float)(amplitude * Edge(t - from, seconds) * sum / Partials.Length);
        }
    }

    private void WriteNoise(double from, double seconds, double amplitude)
    {
        var random = new Random(1);
        for (int i = At(from); i < _signal.Length; i++)
        {
            double t = (double)i / SampleRateHz;
            _signal[i] = (float)(amplitude * Edge(t - from, seconds) * ((2 * random.NextDouble()) - 1));
        }
    }
}
