using System.Runtime.Versioning;
using NAudio.CoreAudioApi;

namespace BrassVox.Audio.Windows;

/// <summary>Windows sound: WASAPI in shared mode, so that other programs keep theirs.</summary>
[SupportedOSPlatform("windows")]
internal sealed class WasapiBackEnd : IBackEnd
{
    /// <inheritdoc/>
    public string Name => "WASAPI";

    /// <inheritdoc/>
    public IReadOnlyList<AudioDevice> ListDevices()
    {
        using var enumerator = new MMDeviceEnumerator();
        return [.. List(enumerator, DataFlow.Render), .. List(enumerator, DataFlow.Capture)];
    }

    /// <inheritdoc/>
    public PcmOpening Open(LineDirection direction, LineRequest request)
    {
        string what = direction == LineDirection.Output ? "playback" : "recording";
        string name = request.DeviceId ?? "default";
        try
        {
            using var enumerator = new MMDeviceEnumerator();
            DataFlow flow = direction == LineDirection.Output ? DataFlow.Render : DataFlow.Capture;
            MMDevice device = request.DeviceId is { } id
                ? enumerator.GetDevice(id)
                : enumerator.GetDefaultAudioEndpoint(flow, Role.Multimedia);
            name = device.FriendlyName;
            return new PcmOpening(Open(device, direction, request), null);
        }
        catch (Exception fault)
        {
            return new PcmOpening(null, $"no {what} device could be opened: \"{name}\" {WasapiError.Explain(fault.HResult)}.");
        }
    }

    // A driver without a raw mode refuses it, and with it all of the opening; an array of microphones may have only its own channels there.
    private static WasapiPcm Open(MMDevice device, LineDirection direction, LineRequest request)
    {
        try
        {
            return WasapiPcm.Open(device, direction, request, raw: direction == LineDirection.Input);
        }
        catch (Exception fault) when (direction == LineDirection.Input && !WasapiError.IsLoss(fault.HResult) && fault.HResult is not (WasapiError.AccessDenied or WasapiError.DeviceInUse))
        {
            try
            {
                return WasapiPcm.Open(device, direction, request, raw: false);
            }
            catch (Exception)
            {
                device.Dispose();
                throw;
            }
        }
        catch (Exception)
        {
            device.Dispose();
            throw;
        }
    }

    private static IEnumerable<AudioDevice> List(MMDeviceEnumerator enumerator, DataFlow flow)
    {
        string? defaultId = enumerator.TryGetDefaultAudioEndpoint(flow, Role.Multimedia, out MMDevice? main) ? main.ID : null;
        foreach (MMDevice device in enumerator.EnumerateAudioEndPoints(flow, DeviceState.Active))
        {
            using (device)
            {
                yield return new AudioDevice(
                    device.ID, device.FriendlyName, flow == DataFlow.Capture, flow == DataFlow.Render, device.ID == defaultId);
            }
        }
    }
}
