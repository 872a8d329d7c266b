namespace BrassVox.Synthesis.Living;

/// <summary>
/// Start of a note: the pressure rises and, for a few periods, carries a burst at the pitch to come, as lips that buzz before the column answers.
/// Without it the same note builds up by itself, two to four times slower at the bottom of the range.
/// </summary>
/// <remarks>Shape and times are our own choice.</remarks>
internal struct Attack
{
    private const double RiseSeconds = 0.015;
    private const double BurstPeriods = 5;
    private double _phase;
    private double _turn;
    private double _burst;
    private double _fade;
    private double _rise;
    private double _risePerStep;

    /// <summary>Begins a note of a pitch on a grid of steps.</summary>
    /// <param name="frequencyHz">Pitch to come, in grid time.</param>
    /// <param name="stepsPerSecond">Grid in Hz.</param>
    /// <param name="strength">Burst in units of the blowing pressure: 1 for a start, less for a slur.</param>
    /// <param name="stepsPerRealSecond">Steps that pass in a second of listening.</param>
    internal void Begin(double frequencyHz, double stepsPerSecond, double strength, double stepsPerRealSecond)
    {
        _phase = 0;
        _turn = 2 * Math.PI * frequencyHz / stepsPerSecond;
        _fade = Math.Exp(-frequencyHz / (BurstPeriods * stepsPerSecond));
        _burst = strength;
        _risePerStep = 1 / (RiseSeconds * stepsPerRealSecond);
    }

    /// <summary>From silence: the pressure rises anew.</summary>
    internal void FromRest() => _rise = 0;

    /// <summary>Pressure in units of the blowing pressure, one step on.</summary>
    internal double Step()
    {
        if (_rise < 1)
        {
            _rise = Math.Min(1, _rise + _risePerStep);
        }

        double level = 0.5 - (0.5 * Math.Cos(Math.PI * _rise));
        if (_burst > 1e-4)
        {
            _phase += _turn;
            _burst *= _fade;
            level += _burst * Math.Sin(_phase);
        }

        return level;
    }
}
