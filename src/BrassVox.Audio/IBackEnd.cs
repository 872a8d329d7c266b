namespace BrassVox.Audio;

/// <summary>One operating system's sound. Its calls may block; they are never made on a sound thread.</summary>
internal interface IBackEnd
{
    /// <summary>Its name: ALSA, WASAPI, CoreAudio or none.</summary>
    string Name { get; }

    /// <summary>Devices that are present.</summary>
    IReadOnlyList<AudioDevice> ListDevices();

    /// <summary>Opens a device. Never throws for one that is missing or refuses.</summary>
    /// <param name="direction">Which way the sound goes.</param>
    /// <param name="request">What is wished for.</param>
    PcmOpening Open(LineDirection direction, LineRequest request);
}
