using System.Numerics;

namespace BrassVox.Audio;

/// <summary>
/// Carries samples from a sound thread to another without locks, waits or allocation. Exactly one thread writes and
/// exactly one reads. When the reader is too slow the newest samples are lost, and counted.
/// </summary>
public sealed class SampleRing
{
    private readonly float[] _samples;
    private readonly int _mask;
    private long _written;
    private long _read;
    private long _lost;

    /// <summary>Makes an empty ring.</summary>
    /// <param name="capacitySamples">Samples it holds at least, 1 to 2^30; rounded up to a power of two.</param>
    public SampleRing(int capacitySamples)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(capacitySamples, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(capacitySamples, 1 << 30);
        _samples = new float[BitOperations.RoundUpToPowerOf2((uint)capacitySamples)];
        _mask = _samples.Length - 1;
    }

    /// <summary>Samples it holds.</summary>
    public int CapacitySamples => _samples.Length;

    /// <summary>Samples that can be read now. Any thread.</summary>
    public int AvailableSamples => (int)(Volatile.Read(ref _written) - Volatile.Read(ref _read));

    /// <summary>Samples that found no room since the beginning. Any thread.</summary>
    public long LostSamples => Volatile.Read(ref _lost);

    /// <summary>Puts samples in. Writer's thread only.</summary>
    /// <param name="samples">Samples; what finds no room is lost.</param>
    /// <returns>Samples put in.</returns>
    public int Write(ReadOnlySpan<float> samples)
    {
        long written = _written;
        int room = _samples.Length - (int)(written - Volatile.Read(ref _read));
        int count = Math.Min(room, samples.Length);
        int start = (int)written & _mask;
        int first = Math.Min(count, _samples.Length - start);
        samples[..first].CopyTo(_samples.AsSpan(start));
        samples[first..count].CopyTo(_samples);
        Volatile.Write(ref _written, written + count);
        if (count < samples.Length)
            Volatile.Write(ref _lost, _lost + samples.Length - count);
        return count;
    }

    /// <summary>Takes the oldest samples out. Reader's thread only.</summary>
    /// <param name="target">Where to put them.</param>
    /// <returns>Samples taken: as many as fit, or fewer when fewer are there.</returns>
    public int Read(Span<float> target)
    {
        long read = _read;
        int count = Math.Min((int)(Volatile.Read(ref _written) - read), target.Length);
        int start = (int)read & _mask;
        int first = Math.Min(count, _samples.Length - start);
        _samples.AsSpan(start, first).CopyTo(target);
        _samples.AsSpan(0, count - first).CopyTo(target[first..]);
        Volatile.Write(ref _read, read + count);
        return count;
    }
}
