namespace BrassVox.Analysis.Bounds;

/// <summary>A steady tone as the sum of its harmonics.</summary>
/// <param name="FundamentalHz">Fundamental in Hz, &gt; 0.</param>
/// <param name="Amplitudes">Peak amplitudes of the harmonics, the fundamental first.</param>
/// <param name="PhasesRadians">Phases at the middle of the window, cosine; as many as amplitudes.</param>
public sealed record HarmonicTone(
    double FundamentalHz, IReadOnlyList<double> Amplitudes, IReadOnlyList<double> PhasesRadians)
{
    /// <summary>Mean power: half the sum of the squared amplitudes.</summary>
    public double Power => 0.5 * Amplitudes.Sum(a => a * a);
}
