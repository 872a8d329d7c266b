namespace BrassVox.Audio.Wav;

/// <summary>A WAV file read whole.</summary>
/// <param name="Layout">How the file holds its samples.</param>
/// <param name="Channels">Samples of each channel, full scale 1; all of the same length, all finite.</param>
/// <param name="NonFiniteSamples">Samples that were no number or infinite; they were read as 0.</param>
/// <param name="Notes">What was odd about the file yet did not stop it from being read; one line each.</param>
public sealed record WavSound(
    WavLayout Layout, IReadOnlyList<float[]> Channels, long NonFiniteSamples, IReadOnlyList<string> Notes) : WavReading
{
    /// <summary>Samples per second and channel.</summary>
    public int SampleRateHz => Layout.SampleRateHz;

    /// <summary>Samples per channel.</summary>
    public int SampleCount => Channels[0].Length;

    /// <summary>Length in seconds.</summary>
    public double Seconds => (double)SampleCount / SampleRateHz;

    /// <summary>One channel, or the mean of all.</summary>
    /// <param name="channel">Channel from 1, at most the number there are; 0 for the mean of all.</param>
    /// <returns>Samples, full scale 1; the channel itself where there is only one to give.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such channel.</exception>
    public float[] Mono(int channel = 0)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(channel);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(channel, Channels.Count);
        if (channel > 0 || Channels.Count == 1)
            return Channels[Math.Max(0, channel - 1)];
        float[] mono = new float[SampleCount];
        foreach (float[] one in Channels)
        {
            for (int i = 0; i < mono.Length; i++)
                mono[i] += one[i] / Channels.Count;
        }

        return mono;
    }
}
