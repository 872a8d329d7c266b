namespace BrassVox.Audio.Wav;

/// <summary>How a WAV file is written.</summary>
/// <param name="SampleRateHz">Samples per second and channel, 8000 to 384000.</param>
/// <param name="Channels">Channels, 1 to 32.</param>
/// <param name="Encoding">How samples are written.</param>
/// <param name="Overwrite">True to replace a file of that name once the new one is finished.</param>
/// <param name="IsTake">
/// True for a recording: its file can be read by its owner only, may grow beyond 4 GB (as RF64), and is kept when the
/// program ends before <see cref="WavWriter.Finish"/>.
/// </param>
public sealed record WavWriteOptions(
    int SampleRateHz, int Channels, WavEncoding Encoding = WavEncoding.Pcm24, bool Overwrite = true, bool IsTake = false)
{
    /// <summary>What the file says of itself, written before the sound; empty for nothing.</summary>
    public IReadOnlyList<WavTag> Tags { get; init; } = [];

    /// <summary>Options for a recording: 32-bit float, never overwriting.</summary>
    /// <param name="sampleRateHz">The rate that the device granted.</param>
    /// <param name="channels">Channels.</param>
    public static WavWriteOptions ForTake(int sampleRateHz, int channels) =>
        new(sampleRateHz, channels, WavEncoding.Floating32, Overwrite: false, IsTake: true);
}
