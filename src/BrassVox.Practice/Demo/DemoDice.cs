namespace BrassVox.Practice.Demo;

/// <summary>Seeded chance, the same on every machine and with every runtime.</summary>
/// <param name="seed">The seed.</param>
/// <remarks>Source: G. Steele, D. Lea, C. Flood 2014, "Fast splittable pseudorandom number generators", the mixing function (constants from memory).</remarks>
internal sealed class DemoDice(int seed)
{
    private ulong _state = (ulong)seed;

    /// <summary>A number from 0 to 1, 1 never.</summary>
    public double Share()
    {
        _state += 0x9E3779B97F4A7C15;
        ulong z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }

    /// <summary>A number about 0 with deviation 1, never beyond 3.5: the sum of twelve shares.</summary>
    public double About()
    {
        double sum = -6;
        for (int i = 0; i < 12; i++)
        {
            sum += Share();
        }

        return Math.Clamp(sum, -3.5, 3.5);
    }

    /// <summary>A whole number from 0, below a limit.</summary>
    public int Below(int limit) => (int)(Share() * limit);

    /// <summary>True with a chance.</summary>
    public bool Chance(double share) => Share() < share;
}
