namespace BrassVox.Audio;

/// <summary>The machine's sound: lists devices and opens lines. Calls may block; never from a sound thread.</summary>
public interface IAudioSystem
{
    /// <summary>Name of the back end: ALSA, WASAPI, CoreAudio or none.</summary>
    string BackEnd { get; }

    /// <summary>Devices now present; empty when there are none.</summary>
    IReadOnlyList<AudioDevice> ListDevices();

    /// <summary>Opens a line to play on. Never throws for a missing or refusing device: the silent line comes back with the reason.</summary>
    /// <param name="request">What is wished for.</param>
    /// <param name="fill">Called on the sound thread for each block.</param>
    LineOpening OpenOutput(LineRequest request, FillBlock fill);

    /// <summary>Opens a line to record from. Never throws for a missing or refusing device: a line of silence comes back with the reason.</summary>
    /// <param name="request">What is wished for.</param>
    /// <param name="take">Called on the sound thread for each block.</param>
    LineOpening OpenInput(LineRequest request, TakeBlock take);
}
