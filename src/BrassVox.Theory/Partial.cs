namespace BrassVox.Theory;

/// <summary>One sinusoid of a sound.</summary>
/// <param name="FrequencyHz">Frequency in Hz, &gt; 0.</param>
/// <param name="Amplitude">Peak amplitude, linear, at least 0; the unit is the caller's.</param>
public readonly record struct Partial(double FrequencyHz, double Amplitude);
