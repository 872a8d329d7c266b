namespace BrassVox.Analysis;

/// <summary>Measures both tones of a mono stream, window by window. Own thread, never the sound thread.</summary>
public interface IDuetTracker
{
    /// <summary>Rate of the stream in Hz.</summary>
    int SampleRateHz { get; }

    /// <summary>Window length in samples of the stream (at most 160 ms).</summary>
    int WindowSamples { get; }

    /// <summary>Distance between windows in samples of the stream (at most 10 ms).</summary>
    int HopSamples { get; }

    /// <summary>Samples from the centre of a window until its frame is given out.</summary>
    int LatencySamples { get; }

    /// <summary>Takes samples, adds each finished frame to <paramref name="frames"/>.</summary>
    /// <param name="mono">Samples, full scale 1, any length; values that are not finite count as 0.</param>
    /// <param name="frames">Where finished frames are added, in order of time.</param>
    void Push(ReadOnlySpan<float> mono, ICollection<AnalysisFrame> frames);

    /// <summary>Changes what is known, from the next window on; continuity is kept.</summary>
    /// <param name="prior">What is known.</param>
    void SetPrior(DuetPrior prior);

    /// <summary>Forgets all that was heard; the next sample is sample 0.</summary>
    void Reset();
}
