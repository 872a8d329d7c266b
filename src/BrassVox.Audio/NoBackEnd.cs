namespace BrassVox.Audio;

/// <summary>A system whose sound is not supported.</summary>
internal sealed class NoBackEnd : IBackEnd
{
    /// <inheritdoc/>
    public string Name => "none";

    /// <inheritdoc/>
    public IReadOnlyList<AudioDevice> ListDevices() => [];

    /// <inheritdoc/>
    public PcmOpening Open(LineDirection direction, LineRequest request) =>
        new(null, "no sound device can be used on this operating system. Work with WAV files, or use Linux, Windows or macOS.");
}
