namespace BrassVox.Synthesis;

/// <summary>The controls of an engine and the values that follow them. All but <see cref="All"/> belongs to the sound thread.</summary>
internal abstract class SmoothedParameters
{
    private readonly SmoothedParameter[] _values;

    private protected SmoothedParameters(Parameter[] all)
    {
        All = all;
        _values = [.. all.Select(parameter => new SmoothedParameter(parameter))];
    }

    /// <summary>The controls, in the order of their indices.</summary>
    internal Parameter[] All { get; }

    internal double this[int index] => _values[index].Value;

    internal double After(int index, int samples) => _values[index].After(samples);

    internal void MoveTo(int index, double value, double samples) => _values[index].MoveTo(value, samples);

    internal void Reset()
    {
        foreach (ref SmoothedParameter value in _values.AsSpan())
        {
            value.Reset();
        }
    }

    internal void Poll(int sampleRateHz)
    {
        foreach (ref SmoothedParameter value in _values.AsSpan())
        {
            value.Poll(sampleRateHz);
        }
    }

    internal void Advance(int samples)
    {
        foreach (ref SmoothedParameter value in _values.AsSpan())
        {
            value.Advance(samples);
        }
    }
}
