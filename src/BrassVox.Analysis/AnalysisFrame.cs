namespace BrassVox.Analysis;

/// <summary>What one window of sound said of the two tones. The same window gives the same frame, live or from a file.</summary>
/// <param name="FirstSample">Index of the window's first sample on the stream's clock.</param>
/// <param name="LengthSamples">Window length in samples.</param>
/// <param name="SampleRateHz">Rate of that clock in Hz, as granted by the device or stated by the file.</param>
/// <param name="LevelDbfs">RMS level of the window in dB, a full-scale sine reads -3.01; -200 for digital silence.</param>
/// <param name="Played">The played tone; null when it was not found or cannot be told.</param>
/// <param name="Sung">The sung tone; null when it was not found or cannot be told.</param>
/// <param name="BeatRateHz">Beats per second between the nearest strong partials, from the pitches or, when not separable, from the envelope; null when unknown.</param>
/// <param name="Separability">Whether the two could be told apart.</param>
public readonly record struct AnalysisFrame(
    long FirstSample,
    int LengthSamples,
    int SampleRateHz,
    double LevelDbfs,
    PitchEstimate? Played,
    PitchEstimate? Sung,
    double? BeatRateHz,
    Separability Separability)
{
    /// <summary>
    /// When the two cannot be told apart and no rate stands: a rate, in beats per second, that the last two seconds surely stay under;
    /// null when nothing can be said. Very slow beats and perfect stillness read alike.
    /// </summary>
    public double? BeatsBelowHz { get; init; }

    /// <summary>The two tones, the lower one first, when they stand apart but nothing tells which is played; else null.</summary>
    public (PitchEstimate Lower, PitchEstimate Upper)? RolesOpen { get; init; }

    /// <summary>
    /// The pitch of the one harmonic series there is, when nothing was declared and nothing tells what it comes from: the lips, the voice,
    /// or both at one pitch or a whole number of octaves or twelfths apart. Null when a role is given, or when there are two series or none.
    /// </summary>
    public PitchEstimate? OneSeries { get; init; }

    /// <summary>Centre of the window on the stream's clock, in seconds.</summary>
    public double CentreSeconds => (FirstSample + (0.5 * LengthSamples)) / SampleRateHz;
}
