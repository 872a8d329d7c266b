namespace BrassVox.Synthesis;

/// <summary>A value that moves in a straight line to its target and stays there.</summary>
internal struct Ramp
{
    private double _target;
    private double _samplesLeft;

    internal double Value { get; private set; }

    internal readonly double Target => _target;

    internal readonly bool IsMoving => _samplesLeft > 0;

    internal void Jump(double value)
    {
        Value = value;
        _target = value;
        _samplesLeft = 0;
    }

    /// <summary>Moves to a target in so many samples; at once when there are none.</summary>
    internal void MoveTo(double target, double samples)
    {
        _target = target;
        _samplesLeft = samples;
        if (samples <= 0)
        {
            Jump(target);
        }
    }

    /// <summary>Moves on and returns the value reached.</summary>
    internal double Advance(int samples)
    {
        if (_samplesLeft <= samples)
        {
            Value = _target;
            _samplesLeft = 0;
        }
        else
        {
            Value += (_target - Value) * samples / _samplesLeft;
            _samplesLeft -= samples;
        }

        return Value;
    }

    /// <summary>The value some samples from now, without moving.</summary>
    internal readonly double After(int samples) =>
        _samplesLeft <= samples ? _target : Value + ((_target - Value) * samples / _samplesLeft);
}
