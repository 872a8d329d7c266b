using System.Numerics;

namespace BrassVox.Synthesis;

/// <summary>
/// Last stage before any output: true peak at or under -1 dBTP, finite whatever comes in. It looks four ticks ahead and moves its gain in straight lines,
/// so nothing clicks; without need its gain is exactly 1.
/// </summary>
/// <remarks>Source: true peak by fourfold oversampling, ITU-R BS.1770-4 annex 2; the interpolator (12 taps a phase, Kaiser window) is our own.</remarks>
internal sealed class PeakGuard
{
    /// <summary>Samples of a tick: all work is done in these, so that blocks of any length give the same sound.</summary>
    internal const int TickSamples = 64;

    /// <summary>Ticks between what goes in and what comes out.</summary>
    internal const int LatencyTicks = 4;

    /// <summary>Highest true peak let through: -1 dBTP less 0.15 dB, the most by which fourfold oversampling misses a peak here.</summary>
    internal const float Ceiling = 0.876f;

    private const int Taps = 12;
    private const int Phases = 3;
    private const int History = 16;
    private const double ReleaseSeconds = 0.25;
    private readonly float[] _taps = new float[Taps * Phases];
    private readonly float[] _window = new float[History + TickSamples];
    private readonly float[] _needed = new float[LatencyTicks + 1];
    private readonly float[] _allowed = new float[3];
    private readonly float _overshoot;
    private float _releasePart;
    private float _boundary;

    internal PeakGuard()
    {
        Span<double> taps = stackalloc double[Taps];
        for (int phase = 0; phase < Phases; phase++)
        {
            double total = 0;
            double magnitude = 0;
            for (int tap = 0; tap < Taps; tap++)
            {
                double time = tap - ((Taps / 2) - 1) - ((phase + 1) * 0.25);
                double edge = time / (Taps / 2);
                taps[tap] = Math.Sin(Math.PI * time) / (Math.PI * time) * Bessel(5 * Math.Sqrt(Math.Max(0, 1 - (edge * edge))));
                total += taps[tap];
            }

            for (int tap = 0; tap < Taps; tap++)
            {
                _taps[(phase * Taps) + tap] = (float)(taps[tap] / total);
                magnitude += Math.Abs(taps[tap] / total);
            }

            _overshoot = (float)Math.Max(_overshoot, magnitude);
        }
    }

    /// <summary>Gain at the start of the tick that comes out.</summary>
    internal float GainFrom { get; private set; } = 1;

    /// <summary>Gain at its end.</summary>
    internal float GainTo { get; private set; } = 1;

    /// <summary>Samples that were not finite or absurdly large and were replaced.</summary>
    internal long RepairedCount { get; private set; }

    internal void Prepare(int sampleRateHz)
    {
        _releasePart = (float)(1 - Math.Exp(-TickSamples / (ReleaseSeconds * sampleRateHz)));
        Reset();
    }

    internal void Reset()
    {
        Array.Clear(_window);
        Array.Fill(_needed, 1f);
        Array.Fill(_allowed, 1f);
        _boundary = 1;
        GainFrom = 1;
        GainTo = 1;
        RepairedCount = 0;
    }

    /// <summary>Makes a tick finite, in place; stems go through it too.</summary>
    internal void Repair(Span<float> tick)
    {
        bool isSound = true;
        for (int i = 0; i < tick.Length; i += Vector<float>.Count)
        {
            isSound &= Vector.LessThanOrEqualAll(Vector.Abs(new Vector<float>(tick[i..])), new Vector<float>(64));
        }

        if (isSound)
        {
            return;
        }

        for (int i = 0; i < tick.Length; i++)
        {
            if (!(Math.Abs(tick[i]) <= 64))
            {
                tick[i] = float.IsNaN(tick[i]) ? 0 : Math.Clamp(tick[i], -64, 64);
                RepairedCount++;
            }
        }
    }

    /// <summary>Takes the next tick of the (repaired) mix and sets the gain of the tick that went in <see cref="LatencyTicks"/> before.</summary>
    internal void Push(ReadOnlySpan<float> tick)
    {
        _window.AsSpan(TickSamples, History).CopyTo(_window);
        tick.CopyTo(_window.AsSpan(History));

        // Between samples a peak is at most the sum of the interpolator's magnitudes times the highest sample: where even that is low enough nothing has to be interpolated.
        float sampled = Lanes.Peak(_window);
        float peak = sampled * _overshoot <= Ceiling ? sampled : Peak();

        Array.Copy(_needed, 1, _needed, 0, LatencyTicks);
        _needed[LatencyTicks] = peak <= Ceiling ? 1 : Ceiling / peak;
        float least = 1;
        foreach (float needed in _needed)
        {
            least = Math.Min(least, needed);
        }

        float last = _allowed[2];
        float risen = last + ((1 - last) * _releasePart);
        _allowed[0] = _allowed[1];
        _allowed[1] = last;
        _allowed[2] = Math.Min(least, risen > 0.9999f ? 1 : risen);
        GainFrom = _boundary;
        _boundary = (_allowed[0] + _allowed[1] + _allowed[2]) * (1f / 3);
        GainTo = _boundary;
    }

    // The peak of the samples and of three points between each two of them; six samples of the tick before are looked at again.
    private float Peak()
    {
        int width = Vector<float>.Count;
        Vector<float> peak = default;
        for (int i = 0; i < TickSamples; i += width)
        {
            int at = History + i - Taps + 1;
            peak = Vector.Max(peak, Vector.Abs(new Vector<float>(_window, History + i)));
            for (int phase = 0; phase < Phases; phase++)
            {
                Vector<float> sum = default;
                for (int tap = 0; tap < Taps; tap++)
                {
                    sum = Vector.FusedMultiplyAdd(new Vector<float>(_taps[(phase * Taps) + tap]), new Vector<float>(_window, at + tap), sum);
                }

                peak = Vector.Max(peak, Vector.Abs(sum));
            }
        }

        float highest = 0;
        for (int i = 0; i < width; i++)
        {
            highest = Math.Max(highest, peak[i]);
        }

        return highest;
    }

    private static double Bessel(double x)
    {
        double sum = 1;
        double term = 1;
        for (int i = 1; i < 40; i++)
        {
            term *= x / (2 * i);
            sum += term * term;
        }

        return sum;
    }
}
