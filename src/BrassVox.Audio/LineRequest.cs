namespace BrassVox.Audio;

/// <summary>What is asked of a device.</summary>
/// <param name="DeviceId">The device's id from the list, or null for the system's default.</param>
/// <param name="SampleRateHz">Rate wished for in Hz; the device may grant another.</param>
/// <param name="Channels">Channels wished for.</param>
/// <param name="PeriodSamples">Block length wished for, per channel.</param>
/// <param name="Periods">Blocks in the buffer, at least 3.</param>
/// <param name="IsRateFixed">True where the system shall convert rather than grant another rate, if it can.</param>
public sealed record LineRequest(
    string? DeviceId = null, int SampleRateHz = 48000, int Channels = 2, int PeriodSamples = 256, int Periods = 4, bool IsRateFixed = false);
