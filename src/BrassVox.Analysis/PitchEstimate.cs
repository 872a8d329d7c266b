namespace BrassVox.Analysis;

/// <summary>One tone as measured in one window.</summary>
/// <param name="FrequencyHz">Fundamental in Hz, &gt; 0.</param>
/// <param name="LevelDbfs">Level of the tone, all its partials together; a sine of amplitude 1 reads 0.</param>
/// <param name="Confidence">0 to 1: the share of the window's energy near this tone's partials that the fitted tone explains.</param>
public readonly record struct PitchEstimate(double FrequencyHz, double LevelDbfs, double Confidence);
