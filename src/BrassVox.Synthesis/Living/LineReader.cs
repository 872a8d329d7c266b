namespace BrassVox.Synthesis.Living;

/// <summary>
/// Remembers the last output so that another thread can measure lines in it. The sound thread only copies; the reader does the arithmetic.
/// A reader overtaken by the writer sees some newer samples: the figure is for the eye.
/// </summary>
internal sealed class LineReader
{
    private const int Size = 1 << 15;
    private const double WindowSeconds = 0.25;
    private readonly float[] _samples = new float[Size];
    private long _written;
    private int _window;
    private int _sampleRateHz;

    internal void Prepare(int sampleRateHz)
    {
        _sampleRateHz = sampleRateHz;
        _window = Math.Min((int)(WindowSeconds * sampleRateHz), Size * 3 / 4);
        Reset();
    }

    internal void Reset()
    {
        Array.Clear(_samples);
        Volatile.Write(ref _written, 0);
    }

    /// <summary>Sound thread.</summary>
    internal void Write(ReadOnlySpan<float> samples)
    {
        // Of a block longer than what is remembered only the end counts.
        int skipped = Math.Max(0, samples.Length - Size);
        samples = samples[skipped..];
        int at = (int)((_written + skipped) & (Size - 1));
        int first = Math.Min(samples.Length, Size - at);
        samples[..first].CopyTo(_samples.AsSpan(at));
        samples[first..].CopyTo(_samples);
        Volatile.Write(ref _written, _written + skipped + samples.Length);
    }

    /// <summary>Amplitude of a sine of that frequency in the last quarter of a second. Any thread.</summary>
    internal double Amplitude(double frequencyHz)
    {
        if (!(frequencyHz > 0) || frequencyHz > 0.5 * _sampleRateHz)
        {
            return 0;
        }

        long from = Volatile.Read(ref _written) - _window;
        (double turnImaginary, double turnReal) = Math.SinCos(2 * Math.PI * frequencyHz / _sampleRateHz);
        (double hannImaginary, double hannReal) = Math.SinCos(2 * Math.PI / _window);
        (double real, double imaginary, double x, double y, double h, double k) = (0, 0, 1, 0, 1, 0);
        for (int i = 0; i < _window; i++)
        {
            double sample = _samples[(from + i) & (Size - 1)] * (1 - h);
            real += sample * x;
            imaginary += sample * y;
            (x, y) = ((x * turnReal) - (y * turnImaginary), (x * turnImaginary) + (y * turnReal));
            (h, k) = ((h * hannReal) - (k * hannImaginary), (h * hannImaginary) + (k * hannReal));
        }

        return 2 * Math.Sqrt((real * real) + (imaginary * imaginary)) / _window;
    }
}
