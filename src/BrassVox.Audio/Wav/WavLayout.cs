namespace BrassVox.Audio.Wav;

/// <summary>How a WAV file holds its samples.</summary>
/// <param name="SampleRateHz">Samples per second and channel, 8000 to 384000.</param>
/// <param name="Channels">Channels, 1 to 32.</param>
/// <param name="BitsPerSample">Bits that carry sound, 8 to 64.</param>
/// <param name="BytesPerSample">Bytes that each sample takes up, which may be more than its bits need.</param>
/// <param name="IsFloat">True for IEEE floating point, false for whole numbers.</param>
public readonly record struct WavLayout(
    int SampleRateHz, int Channels, int BitsPerSample, int BytesPerSample, bool IsFloat)
{
    /// <summary>Bytes that one sample of all channels takes up.</summary>
    public int BlockBytes => BytesPerSample * Channels;
}
