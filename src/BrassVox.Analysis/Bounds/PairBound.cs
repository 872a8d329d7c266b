namespace BrassVox.Analysis.Bounds;

/// <summary>The least standard deviation that any unbiased measurement of two pitches can have.</summary>
/// <param name="PlayedHz">For the played fundamental, in Hz; infinite when the window cannot tell the two apart.</param>
/// <param name="SungHz">For the sung fundamental, in Hz; likewise.</param>
public readonly record struct PairBound(double PlayedHz, double SungHz);
