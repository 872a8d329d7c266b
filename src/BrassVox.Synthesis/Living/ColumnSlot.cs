namespace BrassVox.Synthesis.Living;

/// <summary>One harmonic of an instrument on which a player can sit, as the calibration found it with valves up and slide in.</summary>
/// <param name="Number">Number in the harmonic row, from 1 (the pedal).</param>
/// <param name="LipHz">Resonance of the lips, in Hz.</param>
/// <param name="SoundingHz">Pitch that sounds at pp, p, mf, f and ff, in Hz.</param>
/// <param name="LoudnessDb">K-weighted level 1 m from the bell at the same five marks, in dB re 1 Pa.</param>
public sealed record ColumnSlot(int Number, double LipHz, IReadOnlyList<double> SoundingHz, IReadOnlyList<double> LoudnessDb)
{
    /// <summary>Pitch between the marks, straight in the logarithm.</summary>
    /// <param name="dynamic">0 (pp) to 1 (ff).</param>
    internal double SoundingAt(double dynamic)
    {
        (int low, double part) = BlowingState.Place(dynamic);
        return SoundingHz[low] * Math.Pow(SoundingHz[low + 1] / SoundingHz[low], part);
    }

    /// <summary>Level between the marks, in dB.</summary>
    /// <param name="dynamic">0 (pp) to 1 (ff).</param>
    internal double LoudnessAt(double dynamic)
    {
        (int low, double part) = BlowingState.Place(dynamic);
        return LoudnessDb[low] + (part * (LoudnessDb[low + 1] - LoudnessDb[low]));
    }
}
