namespace BrassVox.Synthesis;

/// <summary>Pitch of one tone over time: its path, the slide from one path to the next, and its offset from the path.</summary>
internal struct PitchFollower
{
    private const double SlideSeconds = 0.020;
    private PitchPath? _path;
    private long _pathStart;
    private double _slideOctaves;
    private double _slideSamples;
    private int _sampleRateHz;
    private double _standingHz;

    internal void Reset(double frequencyHz, int sampleRateHz)
    {
        _path = null;
        _standingHz = frequencyHz;
        _slideOctaves = 0;
        _slideSamples = SlideSeconds * sampleRateHz;
        _sampleRateHz = sampleRateHz;
        _pathStart = 0;
    }

    /// <summary>Follows a new path from a sample on; sliding from where the old one is when <paramref name="slide"/>.</summary>
    internal void Follow(PitchPath path, long atSample, bool slide)
    {
        double nowHz = FrequencyHz(atSample);
        _path = path;
        _pathStart = atSample;
        _slideOctaves = slide ? Math.Log2(nowHz / path.FrequencyHz(0)) : 0;
    }

    /// <summary>Path frequency at a sample, in Hz.</summary>
    internal readonly double FrequencyHz(long sample)
    {
        long passed = sample - _pathStart;
        double hz = _path is null ? _standingHz : _path.FrequencyHz((double)passed / _sampleRateHz);
        return _slideOctaves == 0 || passed >= _slideSamples
            ? hz
            : hz * double.Exp2(_slideOctaves * (1 - (passed / _slideSamples)));
    }
}
