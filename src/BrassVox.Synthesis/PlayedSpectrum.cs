namespace BrassVox.Synthesis;

/// <summary>Levels of the harmonics of one measured note.</summary>
/// <param name="Note">Name of the note, as printed.</param>
/// <param name="FrequencyHz">Its fundamental in Hz.</param>
/// <param name="LevelsDb">Levels of harmonics 1, 2, 3 ... in dB relative to the strongest.</param>
/// <param name="SixDbDownHz">Frequency of the highest harmonic within 6 dB of the strongest, in Hz.</param>
/// <param name="TwentyDbDownHz">Frequency of the highest harmonic within 20 dB of the strongest, in Hz.</param>
public sealed record PlayedSpectrum(
    string Note, double FrequencyHz, IReadOnlyList<double> LevelsDb, double SixDbDownHz, double TwentyDbDownHz);
