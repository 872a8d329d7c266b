namespace BrassVox.Synthesis;

/// <summary>Follows a <see cref="Parameter"/> on the sound thread in a straight line over its smoothing time.</summary>
internal struct SmoothedParameter(Parameter parameter)
{
    private readonly Parameter _parameter = parameter;
    private Ramp _ramp;
    private float _lastTarget;

    internal readonly double Value => _ramp.Value;

    internal readonly bool IsMoving => _ramp.IsMoving;

    internal void Reset()
    {
        _lastTarget = _parameter.Target;
        _ramp.Jump(_lastTarget);
    }

    /// <summary>Looks whether someone has set the parameter; call it where a tick begins.</summary>
    internal void Poll(int sampleRateHz)
    {
        float target = _parameter.Target;
        if (target != _lastTarget)
        {
            _lastTarget = target;
            _ramp.MoveTo(target, _parameter.Spec.SmoothingMs * 0.001 * sampleRateHz);
        }
    }

    /// <summary>Moves to a value that an event asks for; the next change of the parameter takes over again.</summary>
    internal void MoveTo(double value, double samples) => _ramp.MoveTo(value, samples);

    internal double Advance(int samples) => _ramp.Advance(samples);

    internal readonly double After(int samples) => _ramp.After(samples);
}
