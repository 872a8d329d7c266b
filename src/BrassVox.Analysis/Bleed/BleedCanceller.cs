using BrassVox.Analysis.Transforms;

namespace BrassVox.Analysis.Bleed;

/// <summary>Takes a drone out of a microphone stream while it runs, with a filter learned before.</summary>
/// <remarks>One thread at a time, never the sound thread; after construction nothing is allocated.</remarks>
public sealed class BleedCanceller
{
    private readonly FirFilter _filter;
    private readonly double[] _sent;
    private readonly double[] _heard;
    private readonly double[] _clean;
    private readonly double[] _delayed;
    private int _filled;
    private int _delayedAt;

    /// <summary>Prepares for a stream.</summary>
    /// <param name="filter">The way from loudspeaker to microphone.</param>
    /// <param name="blockSamples">Samples worked on at once, 64 to 65536; fewer cost more.</param>
    /// <exception cref="ArgumentOutOfRangeException">The block is outside its range.</exception>
    public BleedCanceller(BleedFilter filter, int blockSamples = 1024)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(blockSamples, 64);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(blockSamples, 65_536);
        _filter = new FirFilter(filter.Coefficients, blockSamples);
        _sent = new double[blockSamples];
        _heard = new double[blockSamples];
        _clean = new double[blockSamples];
        _delayed = new double[filter.DelaySamples];
    }

    /// <summary>Samples by which the cleaned stream lags behind the microphone.</summary>
    public int LatencySamples => _filter.BlockSamples;

    /// <summary>Cleans the next samples.</summary>
    /// <param name="reference">What was sent to the loudspeaker at the same instants; values that are not finite count as 0.</param>
    /// <param name="microphone">What the microphone gave, as many samples; likewise.</param>
    /// <param name="clean">Receives as many samples, <see cref="LatencySamples"/> late; silence at first. May be <paramref name="microphone"/>'s memory.</param>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    public void Clean(ReadOnlySpan<float> reference, ReadOnlySpan<float> microphone, Span<float> clean)
    {
        if (reference.Length != microphone.Length || clean.Length != microphone.Length)
        {
            throw new ArgumentException(
                $"Reference, microphone and result need one length; {reference.Length}, {microphone.Length} and {clean.Length} were given.");
        }

        for (int i = 0; i < microphone.Length; i++)
        {
            float heard = float.IsFinite(microphone[i]) ? microphone[i] : 0f;
            clean[i] = (float)_clean[_filled];
            _heard[_filled] = heard;
            _sent[_filled] = Delayed(float.IsFinite(reference[i]) ? reference[i] : 0.0);
            if (++_filled == _heard.Length)
            {
                Work();
            }
        }
    }

    /// <summary>Forgets what was heard; the filter stays.</summary>
    public void Reset()
    {
        _filter.Reset();
        Array.Clear(_delayed);
        Array.Clear(_clean);
        _filled = 0;
        _delayedAt = 0;
    }

    private double Delayed(double sample)
    {
        if (_delayed.Length == 0)
        {
            return sample;
        }

        double late = _delayed[_delayedAt];
        _delayed[_delayedAt] = sample;
        _delayedAt = (_delayedAt + 1) % _delayed.Length;
        return late;
    }

    private void Work()
    {
        _filter.Run(_sent, _sent);
        for (int i = 0; i < _clean.Length; i++)
        {
            _clean[i] = _heard[i] - _sent[i];
        }

        _filled = 0;
    }
}
