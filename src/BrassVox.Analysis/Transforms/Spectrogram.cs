using BrassVox.Analysis.Tracking;

namespace BrassVox.Analysis.Transforms;

/// <summary>Levels of a recording over time and frequency.</summary>
/// <remarks>Hann window; a sine of full scale reads 0 dB where a bin meets it. Source: A. V. Oppenheim and R. W. Schafer, Discrete-Time Signal Processing, short-time Fourier transform (textbook).</remarks>
public sealed class Spectrogram
{
    private const double FloorDb = -200.0;

    private readonly float[,] _levelDb;

    private Spectrogram(float[,] levelDb, double firstSeconds, double hopSeconds, double binHz) =>
        (_levelDb, FirstSeconds, HopSeconds, BinHz) = (levelDb, firstSeconds, hopSeconds, binHz);

    /// <summary>Centre of the first column in seconds.</summary>
    public double FirstSeconds { get; }

    /// <summary>Distance of the columns in seconds.</summary>
    public double HopSeconds { get; }

    /// <summary>Distance of the bins in Hz; bin 0 is 0 Hz.</summary>
    public double BinHz { get; }

    /// <summary>Number of columns in time.</summary>
    public int Columns => _levelDb.GetLength(0);

    /// <summary>Number of bins in frequency.</summary>
    public int Bins => _levelDb.GetLength(1);

    /// <summary>Level of one place in dB re a full-scale sine; -200 for digital silence.</summary>
    /// <param name="column">Column from 0.</param>
    /// <param name="bin">Bin from 0.</param>
    public float LevelDb(int column, int bin) => _levelDb[column, bin];

    /// <summary>Computes a spectrogram.</summary>
    /// <param name="mono">Samples, full scale 1; a value that is not finite counts as silence.</param>
    /// <param name="sampleRateHz">Their rate in Hz, &gt; 0.</param>
    /// <param name="windowSeconds">Length of the window in seconds, &gt; 0: longer parts neighbouring lines, shorter follows faster.</param>
    /// <param name="hopSeconds">Distance of the columns in seconds, &gt; 0.</param>
    /// <param name="highestHz">Highest frequency kept in Hz, &gt; 0; at most half the rate is.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    /// <exception cref="ArgumentException">The recording is shorter than one window.</exception>
    public static Spectrogram Of(ReadOnlySpan<float> mono, int sampleRateHz, double windowSeconds, double hopSeconds, double highestHz)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(sampleRateHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(windowSeconds);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(hopSeconds);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(highestHz);
        int length = Math.Max(32, (int)Math.Round(windowSeconds * sampleRateHz));
        int hop = Math.Max(1, (int)Math.Round(hopSeconds * sampleRateHz));
        if (mono.Length < length)
        {
            throw new ArgumentException($"A spectrogram needs {length} samples, not {mono.Length}.", nameof(mono));
        }

        // Twice as many points as the window has samples: a line falls near the middle of a bin.
        int size = 2 * (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)length);
        double binHz = (double)sampleRateHz / size;
        int bins = Math.Min(size / 2, (int)(highestHz / binHz) + 1);
        float[] window = Hann(length);
        double gain = 2.0 / window.Sum(value => (double)value);
        var transform = new RealTransform(size);
        float[] block = new float[size];
        float[] re = new float[bins];
        float[] im = new float[bins];
        float[,] levels = new float[((mono.Length - length) / hop) + 1, bins];
        for (int column = 0; column < levels.GetLength(0); column++)
        {
            ReadOnlySpan<float> part = mono.Slice(column * hop, length);
            for (int i = 0; i < length; i++)
            {
                block[i] = float.IsFinite(part[i]) ? part[i] * window[i] : 0f;
            }

            transform.Forward(block, re, im);
            for (int bin = 0; bin < bins; bin++)
            {
                double amplitude = gain * Math.Sqrt((re[bin] * re[bin]) + (im[bin] * im[bin]));
                levels[column, bin] = (float)Math.Max(FloorDb, 20.0 * Math.Log10(amplitude));
            }
        }

        return new Spectrogram(levels, 0.5 * length / sampleRateHz, (double)hop / sampleRateHz, binHz);
    }

    private static float[] Hann(int length)
    {
        float[] window = new float[length];
        for (int i = 0; i < length; i++)
        {
            window[i] = (float)(0.5 - (0.5 * Math.Cos(2.0 * Math.PI * i / length)));
        }

        return window;
    }
}
