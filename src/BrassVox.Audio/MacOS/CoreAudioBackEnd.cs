using System.Runtime.Versioning;
using static BrassVox.Audio.MacOS.CoreAudioNative;

namespace BrassVox.Audio.MacOS;

/// <summary>macOS sound: audio queues.</summary>
[SupportedOSPlatform("macos")]
internal sealed unsafe class CoreAudioBackEnd : IBackEnd
{
    /// <inheritdoc/>
    public string Name => "CoreAudio";

    private bool _hearsOfDevices;

    /// <inheritdoc/>
    public IReadOnlyList<AudioDevice> ListDevices()
    {
        HearOfDevices();
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
        HearOfDevices();
        if (!plays && IsMicrophoneRefused())
            return new PcmOpening(null, $"no {what} device could be opened: this terminal may not use the microphone. Allow it under Privacy & Security, Microphone, and start the terminal anew.");
        if (Number(SystemObject, plays ? DefaultOutput : DefaultInput) == 0)
            return new PcmOpening(null, $"no {what} device could be opened: none is there. Plug one in.");
        string name = ListDevices().FirstOrDefault(d => d.Id == request.DeviceId)?.Name ?? request.DeviceId ?? "default";
        int channels = request.Channels > 2 ? Channels(request.DeviceId, direction) : 0;
        int error = CoreAudioPcm.TryOpen(name, direction, channels > 0 ? request with { Channels = Math.Min(request.Channels, channels) } : request, out CoreAudioPcm? pcm);
        return pcm is not null
            ? new PcmOpening(pcm, null)
            : new PcmOpening(null, $"no {what} device could be opened: \"{name}\" refused (error {error}). Allow the terminal to use the microphone, or choose another device.");
    }

    // Devices come and go by messages to the main run loop, which a program in a terminal has none of: a thread of the system's own takes them.
    private void HearOfDevices()
    {
        if (!_hearsOfDevices)
        {
            nint none = 0;
            _ = SetObjectProperty(SystemObject, new PropertyAddress(RunLoop, ScopeGlobal, 0), 0, 0, (uint)sizeof(nint), &none);
            _hearsOfDevices = true;
        }
    }

    // All channels of a device's streams; 0 where it does not say.
    private static int Channels(string? deviceId, LineDirection direction)
    {
        bool plays = direction == LineDirection.Output;
        uint device = deviceId is null
            ? Number(SystemObject, plays ? DefaultOutput : DefaultInput)
            : Numbers(SystemObject, Devices).FirstOrDefault(known => Text(known, DeviceUid) == deviceId);
        var address = new PropertyAddress(StreamChannels, plays ? ScopeOutput : ScopeInput, 0);
        if (device == 0 || PropertySize(device, address, 0, 0, out uint bytes) != 0 || bytes < BufferListHead)
            return 0;
        byte[] list = new byte[bytes];
        fixed (byte* data = list)
        {
            if (Property(device, address, 0, 0, ref bytes, data) != 0)
                return 0;
        }

        int buffers = Math.Min(BitConverter.ToInt32(list, 0), ((int)bytes - BufferListHead) / BufferListEntry);
        return Enumerable.Range(0, Math.Max(0, buffers)).Sum(i => BitConverter.ToInt32(list, BufferListHead + (i * BufferListEntry)));
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
