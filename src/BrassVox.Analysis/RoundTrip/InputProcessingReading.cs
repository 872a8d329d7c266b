namespace BrassVox.Analysis.RoundTrip;

/// <summary>What a microphone's path did to sounds that were steady when they were played.</summary>
/// <param name="Heard">False when the sounds did not come back; the rest is then 0.</param>
/// <param name="LoudDriftDb">Change of level within a steady loud tone, in dB.</param>
/// <param name="SoftChangeDb">Level of a soft tone after the loud one, in dB re the same tone before it.</param>
/// <param name="NoiseDriftDb">Change of level within steady noise, in dB.</param>
public readonly record struct InputProcessingReading(bool Heard, double LoudDriftDb, double SoftChangeDb, double NoiseDriftDb)
{
    private const double GainMovesDb = 1.5;
    private const double NoiseEatenDb = 6.0;

    /// <summary>True when something turns the gain: a steady tone does not stay steady, or a soft one changes after a loud one. The limit of 1.5 dB is ours.</summary>
    public bool IsGainTurned => Heard && (Math.Abs(LoudDriftDb) > GainMovesDb || Math.Abs(SoftChangeDb) > GainMovesDb);

    /// <summary>True when steady noise is taken away in the course of seconds. The limit of 6 dB is ours.</summary>
    public bool IsNoiseRemoved => Heard && NoiseDriftDb < -NoiseEatenDb;
}
