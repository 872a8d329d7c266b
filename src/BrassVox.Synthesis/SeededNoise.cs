namespace BrassVox.Synthesis;

/// <summary>Even noise from -1 to 1 that repeats with its seed (G. Marsaglia, Xorshift RNGs, 2003).</summary>
internal struct SeededNoise(int seed)
{
    private ulong _state = ((ulong)(uint)seed * 0x9E3779B97F4A7C15) | 1;

    internal double Next()
    {
        _state ^= _state << 13;
        _state ^= _state >> 7;
        _state ^= _state << 17;
        return ((_state >> 11) * (2.0 / (1UL << 53))) - 1;
    }
}
