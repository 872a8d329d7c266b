namespace BrassVox.Analysis.Tracking;

/// <summary>What one window says, before it is settled which tone is which.</summary>
/// <param name="LevelDbfs">RMS level.</param>
/// <param name="First">The tone that is the played one when <paramref name="FirstIsPlayed"/> is positive.</param>
/// <param name="Second">The other tone.</param>
/// <param name="BeatRateHz">Beats per second, or null.</param>
/// <param name="Separability">Whether the two could be told apart.</param>
/// <param name="Segment">Number of the unbroken stretch of one pair; within it the two tones keep their places.</param>
/// <param name="FirstIsPlayed">Logarithm of the odds; infinite when it was declared.</param>
/// <param name="BeatsBelowHz">A rate the beats surely stay under, when none stands.</param>
/// <param name="Series">The one harmonic series there is, when it may be one tone or two that meet.</param>
internal readonly record struct WindowReading(
    double LevelDbfs,
    PitchEstimate? First,
    PitchEstimate? Second,
    double? BeatRateHz,
    Separability Separability,
    int Segment,
    double FirstIsPlayed,
    double? BeatsBelowHz = null,
    PitchEstimate? Series = null)
{
    /// <summary>The frame, with given odds; unclear odds leave both roles open.</summary>
    public AnalysisFrame ToFrame(long firstSample, int lengthSamples, int rateHz, double firstIsPlayed)
    {
        bool clear = Math.Abs(firstIsPlayed) >= RoleEvidence.Clear;
        PitchEstimate? played = !clear ? null : firstIsPlayed > 0.0 ? First : Second;
        PitchEstimate? sung = !clear ? null : firstIsPlayed > 0.0 ? Second : First;
        return new AnalysisFrame(firstSample, lengthSamples, rateHz, LevelDbfs, played, sung, BeatRateHz, Separability)
        {
            BeatsBelowHz = BeatsBelowHz,
            OneSeries = played is not null || sung is not null ? null : Series ?? (Separability == Separability.OneTone ? First ?? Second : null),
            RolesOpen = clear || First is not { } first || Second is not { } second ? null
                : first.FrequencyHz <= second.FrequencyHz ? (first, second) : (second, first),
        };
    }
}
