namespace BrassVox.Theory;

/// <summary>A harmonic of the played tone and one of the sung tone that nearly coincide, and so beat.</summary>
/// <param name="PlayedHarmonic">Harmonic number k of P, from 1.</param>
/// <param name="SungHarmonic">Harmonic number m of S, from 1.</param>
/// <param name="RateHz">Beats per second, |k P - m S|.</param>
/// <param name="FrequencyHz">Where it beats: the mean of k P and m S, in Hz.</param>
public readonly record struct BeatingPair(int PlayedHarmonic, int SungHarmonic, double RateHz, double FrequencyHz);
