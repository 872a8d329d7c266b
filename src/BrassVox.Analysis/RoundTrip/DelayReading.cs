namespace BrassVox.Analysis.RoundTrip;

/// <summary>How long a sound takes from the program through loudspeaker, air and microphone back to the program.</summary>
/// <param name="Found">True when at least two of the rising tones were heard and agree within 1 ms.</param>
/// <param name="DelaySamples">The delay in samples, with fractions; 0 when not found.</param>
/// <param name="SpreadSamples">Largest difference between the tones that were heard, in samples; much over 0.001 s tells of a device that skips.</param>
/// <param name="Confidence">0 to 1: the share of the tones that agree, times the chance that noise alone does not give such a peak.</param>
public readonly record struct DelayReading(bool Found, double DelaySamples, double SpreadSamples, double Confidence);
