namespace BrassVox.Analysis.Tracking;

/// <summary>For each other place of a declared pair: whether it has accounted for the sound better for a while, or for a few windows only.</summary>
/// <remarks>A player who reads a note an octave off stays there; lines that coupling makes look like it here and there.</remarks>
/// <param name="places">How many other places.</param>
internal sealed class OctaveEvidence(int places)
{
    // Looks, a tenth of a second apart: so many before anything lasts (fitted on the benchmark's mixes: 3, 4 and 5 tried), and over so many it is averaged (ours, not fitted).
    private const int FewestLooks = 3;
    private const int AveragedLooks = 10;

    private readonly double[] _mean = new double[places];
    private readonly int[] _looks = new int[places];

    /// <summary>Forgets all.</summary>
    public void Clear()
    {
        Array.Clear(_looks);
        Array.Clear(_mean);
    }

    /// <summary>Takes in one look.</summary>
    /// <param name="place">The place.</param>
    /// <param name="excess">By how much (log likelihood) it accounts for the window better than is asked for.</param>
    /// <param name="most">No look counts for more than this (log likelihood), either way.</param>
    /// <returns>True when it has been better on the average, and long enough.</returns>
    public bool Look(int place, double excess, double most)
    {
        _looks[place] = Math.Min(_looks[place] + 1, AveragedLooks);
        _mean[place] += (Math.Clamp(excess, -most, most) - _mean[place]) / _looks[place];
        return _looks[place] >= FewestLooks && _mean[place] > 0.0;
    }
}
