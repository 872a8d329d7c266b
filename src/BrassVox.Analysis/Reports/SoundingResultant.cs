using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>A resultant that the recording really holds.</summary>
/// <param name="Line">Which line of the two tones, at their median pitches.</param>
/// <param name="LevelDbfs">Median level; a sine of amplitude 1 reads 0.</param>
/// <param name="AboveNoiseDb">How far it stands over the spectrum beside it, in dB.</param>
public readonly record struct SoundingResultant(Resultant Line, double LevelDbfs, double AboveNoiseDb);
