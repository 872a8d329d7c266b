using BrassVox.Theory;

namespace BrassVox.Practice.Profiles;

/// <summary>A player with a name: who practises, and how things are shown to them.</summary>
/// <param name="Name">Name; empty for the only player of a machine.</param>
/// <param name="Profile">Instrument, voice, pitch, tuning, aim.</param>
/// <param name="NoteNames">The language of note names.</param>
/// <param name="ReadsTransposed">True when they read the instrument's transposed treble clef; see <see cref="IsUsuallyTransposed"/>.</param>
/// <param name="Unit">The unit in which distances are shown first.</param>
public sealed record Player(
    string Name, PlayerProfile Profile, NoteNaming NoteNames = NoteNaming.English, bool ReadsTransposed = false, DisplayUnit Unit = DisplayUnit.Cents)
{
    /// <summary>Longest name.</summary>
    public const int LongestName = 40;

    /// <summary>A tuba player with a low voice: what holds before any answer.</summary>
    public static Player Usual { get; } = new("", PlayerProfile.Usual(Instrument.Tuba, VoiceKind.Low));

    /// <summary>True for instruments whose parts are usually transposed: horn in F, trumpet in B-flat. Common practice, no source.</summary>
    /// <param name="instrument">The instrument.</param>
    public static bool IsUsuallyTransposed(Instrument instrument) => instrument is Instrument.Horn or Instrument.Trumpet;

    /// <summary>The same player with another profile; with another instrument they read its usual part.</summary>
    /// <param name="profile">The profile.</param>
    public Player With(PlayerProfile profile) => this with
    {
        Profile = profile,
        ReadsTransposed = profile.Instrument == Profile.Instrument ? ReadsTransposed : IsUsuallyTransposed(profile.Instrument),
    };

    /// <summary>True when a name can be kept: letters, digits, spaces, hyphens and underscores, beginning with a letter or digit.</summary>
    /// <param name="name">The name.</param>
    public static bool IsName(string name) => name.Length is >= 1 and <= LongestName
        && char.IsLetterOrDigit(name[0]) && name[^1] != ' ' && name.All(c => char.IsLetterOrDigit(c) || c is ' ' or '-' or '_');
}
