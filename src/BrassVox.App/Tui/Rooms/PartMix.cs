namespace BrassVox.App.Tui.Rooms;

/// <summary>What the player has done to the parts of the sound: muted, faded, or one left alone.</summary>
internal sealed class PartMix
{
    private const double SilentDb = -80;
    private const double FadedDb = -18;
    private readonly HashSet<int> _muted = [];
    private readonly HashSet<int> _faded = [];

    /// <summary>The part left alone, or null.</summary>
    public int? Only { get; private set; }

    /// <summary>True when nothing has been done.</summary>
    public bool IsPlain => Only is null && _muted.Count == 0 && _faded.Count == 0;

    /// <summary>Mutes a part or lets it sound again.</summary>
    /// <param name="part">Index of the part.</param>
    /// <returns>True when it is now muted.</returns>
    public bool ToggleMute(int part) => Toggle(_muted, part);

    /// <summary>Fades a part or brings it back.</summary>
    /// <param name="part">Index of the part.</param>
    /// <returns>True when it is now faded.</returns>
    public bool ToggleFade(int part) => Toggle(_faded, part);

    /// <summary>Leaves one part alone, or all again.</summary>
    /// <param name="part">Index of the part.</param>
    /// <returns>True when it is now alone.</returns>
    public bool ToggleOnly(int part)
    {
        Only = Only == part ? null : part;
        return Only is not null;
    }

    /// <summary>All parts sound again.</summary>
    public void Reset()
    {
        Only = null;
        _muted.Clear();
        _faded.Clear();
    }

    /// <summary>Gain of a part in dB.</summary>
    /// <param name="part">Index of the part.</param>
    public double GainDb(int part) =>
        Only is { } only && only != part ? SilentDb
        : Only is null && _muted.Contains(part) ? SilentDb
        : _faded.Contains(part) ? FadedDb
        : 0;

    /// <summary>A word on a part's state, or empty.</summary>
    /// <param name="part">Index of the part.</param>
    public string State(int part) =>
        Only == part ? "only"
        : Only is not null ? "silent: only"
        : _muted.Contains(part) ? "muted"
        : _faded.Contains(part) ? "faded"
        : "";

    private static bool Toggle(HashSet<int> set, int part)
    {
        if (set.Remove(part))
        {
            return false;
        }

        set.Add(part);
        return true;
    }
}
