using System.Runtime.InteropServices;

namespace BrassVox.Audio.Linux;

/// <summary>Linux sound: ALSA, which also reaches PipeWire, PulseAudio and JACK through its plug-ins.</summary>
internal sealed class AlsaBackEnd : IBackEnd
{
    private const string DefaultId = "default";
    private const string DefaultName = "System default";
    private const int NoSuchFile = -2;
    private const int NotAllowed = -1;
    private const int NoAccess = -13;
    private const int Busy = -16;
    private const int NoDevice = -19;
    private const int BadArgument = -22;
    private const int Refused = -111;

    private static readonly LineRequest Probe = new();
    private static readonly TimeSpan LongestTurn = TimeSpan.FromSeconds(3);

    private readonly Lock _configuration = new();

    /// <inheritdoc/>
    public string Name => "ALSA";

    /// <inheritdoc/>
    public IReadOnlyList<AudioDevice> ListDevices()
    {
        if (!AlsaChatter.Silence())
            return [];
        if (!_configuration.TryEnter(LongestTurn))
            return [];
        try
        {
            Reread();
            var devices = new List<AudioDevice>();
            bool plays = Opens(DefaultId, LineDirection.Output);
            bool records = Opens(DefaultId, LineDirection.Input);
            if (plays || records)
                devices.Add(new AudioDevice(DefaultId, DefaultName, records, plays, true));
            AddCards(devices);
            return devices;
        }
        finally
        {
            _configuration.Exit();
        }
    }

    /// <inheritdoc/>
    public PcmOpening Open(LineDirection direction, LineRequest request)
    {
        string what = direction == LineDirection.Output ? "playback" : "recording";
        if (!AlsaChatter.Silence())
            return new PcmOpening(null, $"no {what} device could be opened: this machine has no ALSA library (libasound.so.2). Install it; on Debian the package is libasound2.");
        string id = request.DeviceId ?? DefaultId;
        if (!_configuration.TryEnter(LongestTurn))
            return new PcmOpening(null, $"no {what} device could be opened: the sound system still works on an earlier request. Restart the sound server.");
        try
        {
            Reread();
            string name = NameOf(id);
            int error = AlsaPcm.TryOpen(id, name, direction, request, out AlsaPcm? pcm);
            return pcm is not null
                ? new PcmOpening(pcm, null)
                : new PcmOpening(null, $"no {what} device could be opened: \"{name}\" {Reason(error)}");
        }
        finally
        {
            _configuration.Exit();
        }
    }

    private static string NameOf(string id)
    {
        if (id == DefaultId)
            return DefaultName;
        var cards = new List<AudioDevice>();
        AddCards(cards);
        return cards.Find(card => card.Id == id)?.Name ?? id;
    }

    // What "default" means is settled when the configuration is read: by then a sound server runs, or does not. Reading it
    // anew lets the program find a server that was started, or restarted, after it. Open devices keep what they have.
    private static void Reread() => _ = AlsaNative.ForgetConfiguration();

    private static string Reason(int error) => error switch
    {
        NoSuchFile or NoDevice => "was not found. Plug a device in, or choose another device.",
        NoAccess or NotAllowed => "may not be used by this account. Add the account to the group audio, or ask who runs the machine.",
        Busy => "is in use by another program. Close that program, or choose another device.",
        BadArgument => "offers no format that can be used. Choose another device.",
        Refused => "is reached through a sound server that does not answer. Start the server, or choose another device.",
        _ => $"refused: {AlsaNative.Explain(error)}. Choose another device.",
    };

    private static bool Opens(string id, LineDirection direction)
    {
        if (AlsaPcm.TryOpen(id, id, direction, Probe, out AlsaPcm? pcm) < 0)
            return false;
        pcm!.Dispose();
        return true;
    }

    // Cards are listed as ALSA names them, not opened: one that is in use is present all the same.
    private static void AddCards(List<AudioDevice> devices)
    {
        if (AlsaNative.Hints(-1, "pcm", out nint hints) < 0)
            return;
        try
        {
            for (nint next = hints; Marshal.ReadIntPtr(next) != 0; next += nint.Size)
            {
                nint hint = Marshal.ReadIntPtr(next);
                string? id = Take(hint, "NAME");
                if (id is null || !id.StartsWith("hw:", StringComparison.Ordinal))
                    continue;
                string? way = Take(hint, "IOID");
                string name = (Take(hint, "DESC") ?? id).Split('\n')[0];
                devices.Add(new AudioDevice("plug" + id, name, way is null or "Input", way is null or "Output", false));
            }
        }
        finally
        {
            _ = AlsaNative.FreeHints(hints);
        }
    }

    private static string? Take(nint hint, string key)
    {
        nint text = AlsaNative.Hint(hint, key);
        if (text == 0)
            return null;
        string? value = Marshal.PtrToStringUTF8(text);
        AlsaNative.Free(text);
        return value;
    }
}
