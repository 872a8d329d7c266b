namespace BrassVox.Synthesis;

/// <summary>One resonance of the vocal tract.</summary>
/// <param name="FrequencyHz">Centre in Hz.</param>
/// <param name="LevelDb">Level of the spectrum's peak relative to the first formant, in dB.</param>
/// <param name="BandwidthHz">Width at -3 dB in Hz.</param>
public sealed record Formant(double FrequencyHz, double LevelDb, double BandwidthHz);
