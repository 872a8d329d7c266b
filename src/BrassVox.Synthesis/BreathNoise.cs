namespace BrassVox.Synthesis;

/// <summary>Breath in the instrument: seeded noise around the cut-off, an octave wide.</summary>
internal sealed class BreathNoise
{
    private readonly int _seed;
    private readonly double _feedBack1;
    private readonly double _feedBack2;
    private readonly double _gain;
    private SeededNoise _noise;
    private double _last;
    private double _beforeLast;

    internal BreathNoise(double centerHz, int seed, int sampleRateHz)
    {
        _seed = seed;
        double radius = Math.Exp(-Math.PI * 0.7 * centerHz / sampleRateHz);
        double angle = 2 * Math.PI * Math.Min(centerHz / sampleRateHz, 0.4);
        _feedBack1 = 2 * radius * Math.Cos(angle);
        _feedBack2 = -radius * radius;

        // White noise of variance 1/3 through two poles: the sum of the squared impulse response gives a root mean square of 1.
        double power = (1 - _feedBack2) / ((1 + _feedBack2) * (((1 - _feedBack2) * (1 - _feedBack2)) - (_feedBack1 * _feedBack1)));
        _gain = Math.Sqrt(3 / power);
        Reset();
    }

    internal void Reset()
    {
        _noise = new SeededNoise(_seed);
        _last = 0;
        _beforeLast = 0;
    }

    /// <summary>Adds noise whose root mean square moves in a straight line.</summary>
    internal void Add(Span<float> samples, double from, double to)
    {
        double step = (to - from) / samples.Length;
        for (int i = 0; i < samples.Length; i++)
        {
            double now = (_gain * _noise.Next()) + (_feedBack1 * _last) + (_feedBack2 * _beforeLast);
            _beforeLast = _last;
            _last = now;
            samples[i] += (float)(now * (from + (i * step)));
        }
    }
}
