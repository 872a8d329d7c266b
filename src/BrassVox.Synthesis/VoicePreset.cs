namespace BrassVox.Synthesis;

/// <summary>A singing voice as data. Immutable.</summary>
/// <param name="FormatVersion">1.</param>
/// <param name="Id">Name for commands: bass, tenor, alto, soprano.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Source">Where the figures come from.</param>
/// <param name="LowestHz">Lowest usual note in Hz.</param>
/// <param name="HighestHz">Highest usual note in Hz.</param>
/// <param name="ChestRd">Shape of the glottal pulse in chest voice, the Rd of the LF model, 0.3 to 2.7.</param>
/// <param name="FalsettoRd">Its shape in falsetto or head voice, 0.3 to 2.7.</param>
/// <param name="VibratoHz">Usual rate of vibrato in Hz, 5 to 7.</param>
/// <param name="JitterPercent">Mean change of period from one to the next, in percent, when the voice is fully alive.</param>
/// <param name="ShimmerPercent">Mean change of amplitude from one period to the next, in percent, when the voice is fully alive.</param>
/// <param name="DriftCents">Standard deviation of the slow wander of pitch, in cents, when the voice is fully alive.</param>
/// <param name="DefaultVowel">Vowel at the start.</param>
/// <param name="Vowels">Vowels from back to front: u, o, a, e, i.</param>
public sealed record VoicePreset(
    int FormatVersion,
    string Id,
    string Name,
    string Source,
    double LowestHz,
    double HighestHz,
    double ChestRd,
    double FalsettoRd,
    double VibratoHz,
    double JitterPercent,
    double ShimmerPercent,
    double DriftCents,
    string DefaultVowel,
    IReadOnlyList<Vowel> Vowels)
{
    /// <summary>Place of <see cref="DefaultVowel"/> among the vowels; 0 when it is none of them.</summary>
    internal int DefaultVowelIndex()
    {
        for (int i = 0; i < Vowels.Count; i++)
        {
            if (string.Equals(Vowels[i].Name, DefaultVowel, StringComparison.Ordinal))
            {
                return i;
            }
        }

        return 0;
    }
}
