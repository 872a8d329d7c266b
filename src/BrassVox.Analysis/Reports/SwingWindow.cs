namespace BrassVox.Analysis.Reports;

/// <summary>One window of a swinging tone.</summary>
/// <param name="Frame">Its frame; the first sample counts on the clock of the sound.</param>
/// <param name="Seconds">Its middle on the clock of the pitch curve, in seconds.</param>
/// <param name="ZeroHz">Where the curve's 0 cents lie in it, in Hz: what the tone is measured against.</param>
/// <param name="OtherHz">The other tone's, in Hz; null for none.</param>
public readonly record struct SwingWindow(AnalysisFrame Frame, double Seconds, double ZeroHz, double? OtherHz);
