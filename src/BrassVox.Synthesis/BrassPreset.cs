namespace BrassVox.Synthesis;

/// <summary>A brass instrument as data: what its tone is made of. Immutable.</summary>
/// <param name="FormatVersion">1.</param>
/// <param name="Id">Name for commands: tuba, trombone, horn.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Source">Where the figures come from.</param>
/// <param name="LowestHz">Lowest usual note in Hz.</param>
/// <param name="HighestHz">Highest usual note in Hz.</param>
/// <param name="BellDiameterMm">Diameter of the bell's mouth in mm; sound leaves it freely above c / (pi D).</param>
/// <param name="LipOpening">How the lips' opening moves over a period: amplitudes of its partials 1, 2, 3 ... relative to the first. The voice meets the played tone here; the nearer to a sine, the fewer resultants stand out.</param>
/// <param name="CutoffHz">Frequency from which the spectrum falls, in Hz.</param>
/// <param name="SlopeAboveCutoffDbPerOctave">Fall of the spectrum beyond its measured part, in dB per octave, &gt; 0.</param>
/// <param name="BrighteningDbPerOctave">By how many dB per octave the spectrum above half the cut-off tilts up for each dB of dynamic.</param>
/// <param name="Attack">How a note begins.</param>
/// <param name="DriftCents">Standard deviation of the slow wander of pitch, in cents, when the tone is fully alive.</param>
/// <param name="BreathNoiseDb">Level of breath noise relative to the tone, in dB, when the tone is fully alive.</param>
/// <param name="Spectra">Measured notes in rising order.</param>
public sealed record BrassPreset(
    int FormatVersion,
    string Id,
    string Name,
    string Source,
    double LowestHz,
    double HighestHz,
    double BellDiameterMm,
    IReadOnlyList<double> LipOpening,
    double CutoffHz,
    double SlopeAboveCutoffDbPerOctave,
    double BrighteningDbPerOctave,
    BrassAttack Attack,
    double DriftCents,
    double BreathNoiseDb,
    IReadOnlyList<PlayedSpectrum> Spectra);
