namespace BrassVox.Synthesis.Living;

/// <summary>
/// Follows the pitch at which the lips really swing: their opening is turned back by the pitch asked for, smoothed, and the turn that is left is
/// the difference. One thread; allocates nothing after construction.
/// </summary>
internal sealed class PitchWatch
{
    private const double SmoothHz = 8;
    private const double FarthestHz = 2 * SmoothHz;
    private const double WindowSeconds = 0.25;
    private const int Marks = 16;
    private readonly double[] _turns = new double[Marks];
    private readonly double _part;
    private readonly double _markSamples;
    private double _pointerReal;
    private double _pointerImaginary;
    private double _turnReal;
    private double _turnImaginary;
    private double _firstReal;
    private double _firstImaginary;
    private double _real;
    private double _imaginary;
    private double _lastPhase;
    private double _cycles;
    private double _sinceMark;
    private int _mark;
    private int _filled;

    internal PitchWatch(int sampleRateHz)
    {
        _part = 1 - Math.Exp(-2 * Math.PI * SmoothHz / sampleRateHz);
        _markSamples = WindowSeconds * sampleRateHz / Marks;
        Reset();
    }

    /// <summary>Sounding pitch less the pitch asked for, in Hz, over the last quarter of a second; 0 when they do not swing within 16 Hz of it.</summary>
    internal double DifferenceHz { get; private set; }

    internal void Reset()
    {
        (_pointerReal, _pointerImaginary) = (1, 0);
        (_firstReal, _firstImaginary, _real, _imaginary) = (0, 0, 0, 0);
        _lastPhase = 0;
        _cycles = 0;
        _sinceMark = 0;
        _mark = 0;
        _filled = 0;
        DifferenceHz = 0;
    }

    /// <summary>Sets the pitch asked for.</summary>
    /// <param name="cyclesPerSample">In periods per sample.</param>
    internal void Aim(double cyclesPerSample)
    {
        (_turnImaginary, _turnReal) = Math.SinCos(-2 * Math.PI * cyclesPerSample);
        double length = 1 / Math.Sqrt((_pointerReal * _pointerReal) + (_pointerImaginary * _pointerImaginary));
        _pointerReal *= length;
        _pointerImaginary *= length;
    }

    /// <summary>Takes the opening of the lips at one sample.</summary>
    internal void Take(double opening)
    {
        (_pointerReal, _pointerImaginary) =
            ((_pointerReal * _turnReal) - (_pointerImaginary * _turnImaginary), (_pointerReal * _turnImaginary) + (_pointerImaginary * _turnReal));
        _firstReal += ((opening * _pointerReal) - _firstReal) * _part;
        _firstImaginary += ((opening * _pointerImaginary) - _firstImaginary) * _part;
        _real += (_firstReal - _real) * _part;
        _imaginary += (_firstImaginary - _imaginary) * _part;
    }

    /// <summary>Some samples have been taken: looks how far the phase has come.</summary>
    internal void Look(int samples, int sampleRateHz)
    {
        double phase = Math.Atan2(_imaginary, _real) / (2 * Math.PI);
        double moved = phase - _lastPhase;
        _cycles += moved - Math.Round(moved);
        _lastPhase = phase;
        _sinceMark += samples;
        if (_sinceMark < _markSamples)
        {
            return;
        }

        double before = _turns[_mark];
        _turns[_mark] = _cycles;
        _mark = (_mark + 1) % Marks;
        _filled = Math.Min(_filled + 1, Marks + 1);
        double difference = (_cycles - before) * sampleRateHz / (_sinceMark * Marks);
        DifferenceHz = _filled > Marks && Math.Abs(difference) < FarthestHz ? difference : 0;
        _sinceMark = 0;
    }
}
