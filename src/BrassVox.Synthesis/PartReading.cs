namespace BrassVox.Synthesis;

/// <summary>Where a part stands now.</summary>
/// <param name="FrequencyHz">Its frequency in Hz; for P and S the fundamental.</param>
/// <param name="LevelDbfs">Level of the part in the output, a sine of amplitude 1 reads 0; -200 when silent.</param>
/// <param name="GainDb">Gain applied to it in dB; -80 is silent.</param>
public readonly record struct PartReading(double FrequencyHz, double LevelDbfs, float GainDb);
