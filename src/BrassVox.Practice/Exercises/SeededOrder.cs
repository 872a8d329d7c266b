namespace BrassVox.Practice.Exercises;

/// <summary>A small seeded generator whose sequence belongs to this project, so that a seed means the same trials on every platform and version.</summary>
/// <remarks>Source: SplitMix64 (Steele, Lea, Flood 2014; constants from memory).</remarks>
internal sealed class SeededOrder(int seed)
{
    private ulong _state = unchecked((ulong)seed);

    public bool Coin() => (Next() & 1) == 1;

    /// <summary>Indices 0 to kinds-1, each as often as the others within one, shuffled.</summary>
    public int[] Balanced(int kinds, int count)
    {
        int[] order = [.. Enumerable.Range(0, kinds)];
        Shuffle(order);
        int[] indices = new int[count];
        for (int i = 0; i < count; i++)
        {
            indices[i] = order[i % kinds];
        }

        Shuffle(indices);
        return indices;
    }

    private void Shuffle(int[] items)
    {
        for (int i = items.Length - 1; i > 0; i--)
        {
            int j = (int)(Next() % (ulong)(i + 1));
            (items[i], items[j]) = (items[j], items[i]);
        }
    }

    private ulong Next()
    {
        _state += 0x9E3779B97F4A7C15;
        ulong z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }
}
