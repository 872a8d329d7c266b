using BrassVox.Theory;

namespace BrassVox.Synthesis;

/// <summary>A drawn path of pitch: straight in cents between its points, still before the first and after the last.</summary>
public sealed class PitchPath
{
    private readonly double[] _seconds;
    private readonly double[] _octaves;

    /// <summary>Draws a path.</summary>
    /// <param name="points">At least one point: seconds from the start of the path, rising, the first at 0 or later; and the frequency in Hz, 5 to 20000.</param>
    /// <exception cref="ArgumentException">No point, a time that does not rise, or a frequency out of range.</exception>
    public PitchPath(params ReadOnlySpan<(double Seconds, double FrequencyHz)> points)
    {
        if (points.IsEmpty)
        {
            throw new ArgumentException("A pitch path has at least one point.", nameof(points));
        }

        _seconds = new double[points.Length];
        _octaves = new double[points.Length];
        for (int i = 0; i < points.Length; i++)
        {
            (double seconds, double hz) = points[i];
            if (!(seconds >= 0) || !double.IsFinite(seconds) || (i > 0 && seconds <= _seconds[i - 1]) || !(hz is >= 5 and <= 20000))
            {
                throw new ArgumentException($"Point {i} of a pitch path ({seconds} s, {hz} Hz): times rise from 0 s, frequencies lie from 5 to 20000 Hz.", nameof(points));
            }

            _seconds[i] = seconds;
            _octaves[i] = Math.Log2(hz);
        }
    }

    /// <summary>Seconds to the last point.</summary>
    public double LengthSeconds => _seconds[^1];

    /// <summary>A pitch that stands still.</summary>
    /// <param name="frequencyHz">Frequency in Hz, 5 to 20000.</param>
    public static PitchPath Constant(double frequencyHz) => new((0, frequencyHz));

    /// <summary>A straight glide in cents.</summary>
    /// <param name="fromHz">Start in Hz, 5 to 20000.</param>
    /// <param name="toHz">End in Hz, 5 to 20000.</param>
    /// <param name="seconds">Duration in seconds, &gt; 0.</param>
    public static PitchPath Glide(double fromHz, double toHz, double seconds) => new((0, fromHz), (seconds, toHz));

    /// <summary>Frequency at a time, in Hz. Allocates nothing; safe on the sound thread.</summary>
    /// <param name="seconds">Seconds from the start of the path; before the first and after the last point the pitch stands still.</param>
    public double FrequencyHz(double seconds)
    {
        int last = _seconds.Length - 1;
        if (!(seconds > _seconds[0]))
        {
            return double.Exp2(_octaves[0]);
        }

        if (seconds >= _seconds[last])
        {
            return double.Exp2(_octaves[last]);
        }

        int low = 0;
        int high = last;
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            (low, high) = _seconds[middle] <= seconds ? (middle, high) : (low, middle);
        }

        double part = (seconds - _seconds[low]) / (_seconds[high] - _seconds[low]);
        return double.Exp2(_octaves[low] + (part * (_octaves[high] - _octaves[low])));
    }

    /// <summary>Its points by rising time: seconds, and pitch in octaves over 1 Hz. Not for the sound thread.</summary>
    public IEnumerable<(double Seconds, double Octaves)> Points => _seconds.Zip(_octaves);

    /// <summary>The path slower or faster, pitches kept.</summary>
    /// <param name="factor">Factor on all times, finite and &gt; 0.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="factor"/> is out of range.</exception>
    public PitchPath Stretched(double factor)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(factor);
        var points = new (double, double)[_seconds.Length];
        for (int i = 0; i < points.Length; i++)
        {
            points[i] = (factor * _seconds[i], double.Exp2(_octaves[i]));
        }

        return new PitchPath(points);
    }

    /// <summary>The path moved by an interval, times kept.</summary>
    /// <param name="cents">Interval in cents, any sign.</param>
    public PitchPath Transposed(double cents)
    {
        var points = new (double, double)[_seconds.Length];
        for (int i = 0; i < points.Length; i++)
        {
            points[i] = (_seconds[i], Math.Clamp(Cents.Above(double.Exp2(_octaves[i]), cents), 5, 20000));
        }

        return new PitchPath(points);
    }
}
