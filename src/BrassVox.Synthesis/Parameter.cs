namespace BrassVox.Synthesis;

/// <summary>A single value that crosses to the sound thread: the latest wins, nothing queues.</summary>
/// <param name="spec">Name, unit and range.</param>
public sealed class Parameter(ParameterSpec spec)
{
    private float _target = spec.Default;

    /// <summary>Name, unit and range.</summary>
    public ParameterSpec Spec => spec;

    /// <summary>The value asked for. Any thread. Out of range is clamped; NaN throws.</summary>
    public float Target
    {
        get => Volatile.Read(ref _target);
        set => Volatile.Write(ref _target, spec.Validate(value));
    }
}
