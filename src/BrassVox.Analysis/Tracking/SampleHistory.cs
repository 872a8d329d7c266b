namespace BrassVox.Analysis.Tracking;

/// <summary>The newest samples of a stream in one contiguous piece, numbered from the stream's start.</summary>
internal sealed class SampleHistory
{
    private readonly float[] _samples;
    private readonly int _keep;
    private int _count;

    /// <param name="keep">How many of the newest samples can always be read.</param>
    public SampleHistory(int keep)
    {
        _keep = keep;
        _samples = new float[Math.Max(4 * keep, 16384)];
    }

    /// <summary>How many of the newest samples can always be read.</summary>
    public int Kept => _keep;

    /// <summary>Number of samples ever added.</summary>
    public long Added { get; private set; }

    public void Add(float sample)
    {
        if (_count == _samples.Length)
        {
            _samples.AsSpan(_count - _keep, _keep).CopyTo(_samples);
            _count = _keep;
        }

        _samples[_count++] = sample;
        Added++;
    }

    /// <summary>Samples from number <paramref name="first"/>; they have to be among the newest kept.</summary>
    public ReadOnlySpan<float> From(long first, int length) =>
        _samples.AsSpan(_count - (int)(Added - first), length);

    public void Clear()
    {
        _count = 0;
        Added = 0;
    }
}
