namespace BrassVox.Audio;

/// <summary>What a sound line runs at. For a device: what it granted, not what was asked.</summary>
/// <param name="SampleRateHz">Samples per second and channel.</param>
/// <param name="Channels">Interleaved channels, at least 1.</param>
/// <param name="PeriodSamples">Samples per channel in one block; the largest block ever passed.</param>
/// <param name="Periods">Blocks in the device's buffer; 1 for files and the silent line.</param>
public readonly record struct LineFormat(int SampleRateHz, int Channels, int PeriodSamples, int Periods)
{
    /// <summary>Length of the whole buffer in ms.</summary>
    public double BufferMs => 1000.0 * PeriodSamples * Periods / SampleRateHz;
}
