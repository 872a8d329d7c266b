using System.Runtime.Versioning;
using static BrassVox.Audio.MacOS.CoreAudioNative;

namespace BrassVox.Audio.MacOS;

/// <summary>macOS sound: audio queues.</summary>
[SupportedOSPlatform("macos")]
internal sealed unsafe class CoreAudioBackEnd : IBackEnd
{
    /// <inheritdoc/>
    public string Name => "CoreAudio";

    /// <inheritdoc/>
    public IReadOnlyList<AudioDevice> ListDevices()
    {
        uint defaultOutput = Number(SystemObject, DefaultOutput);
        uint defaultInput = Number(SystemObject, DefaultInput);
        var devices = new List<AudioDevice>();
        foreach (uint device in Numbers(SystemObject, Devices))
        {
            bool plays = Size(device, Streams, ScopeOutput) > 0;
            bool records = Size(device, Streams, ScopeInput) > 0;
            string id = Text(device, DeviceUid);
            if (id.Length > 0 && (plays || records))
                devices.Add(new AudioDevice(id, Text(device, ObjectName), records, plays, device == defaultOutput || device == defaultInput));
        }

        return devices;
    }

    /// <inheritdoc/>
    public PcmOpening Open(LineDirection direction, LineRequest request)
    {
        bool plays = direction == LineDirection.Output;
        string what = plays ? "playback" : "recording";
        if (Number(SystemObject, plays ? DefaultOutput : DefaultInput) == 0)
            return new PcmOpening(null, $"no {what} device could be opened: none is there. Plug one in.");
        string name = ListDevices().FirstOrDefault(d => d.Id == request.DeviceId)?.Name ?? request.DeviceId ?? "default";
        int error = CoreAudioPcm.TryOpen(name, direction, request, out CoreAudioPcm? pcm);
        return pcm is not null
            ? new PcmOpening(pcm, null)
            : new PcmOpening(null, $"no {what} device could be opened: \"{name}\" refused (error {error}). Allow the terminal to use the microphone, or choose another device.");
    }

    private static uint Size(uint audioObject, uint selector, uint scope) =>
        PropertySize(audioObject, new PropertyAddress(selector, scope, 0), 0, 0, out uint bytes) == 0 ? bytes : 0;

    private static uint Number(uint audioObject, uint selector)
    {
        uint value = 0;
        uint bytes = sizeof(uint);
        return Property(audioObject, new PropertyAddress(selector, ScopeGlobal, 0), 0, 0, ref bytes, &value) == 0 ? value : 0;
    }

    private static uint[] Numbers(uint audioObject, uint selector)
    {
        uint bytes = Size(audioObject, selector, ScopeGlobal);
        uint[] values = new uint[bytes / sizeof(uint)];
        fixed (uint* data = values)
        {
            int error = Property(audioObject, new PropertyAddress(selector, ScopeGlobal, 0), 0, 0, ref bytes, data);
            return error == 0 ? values[..(int)(bytes / sizeof(uint))] : [];
        }
    }

    private static string Text(uint audioObject, uint selector)
    {
        nint reference = 0;
        uint bytes = (uint)sizeof(nint);
        int error = Property(audioObject, new PropertyAddress(selector, ScopeGlobal, 0), 0, 0, ref bytes, &reference);
        return error == 0 ? TakeString(reference) : "";
    }
}
