using System.Globalization;
using BrassVox.App.Tui.Sound;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>The five answers about a player: how each is shown and how the next or the last option is taken.</summary>
/// <param name="stand">The stand.</param>
internal sealed class Answers(MusicStand stand)
{
    /// <summary>How many there are.</summary>
    public const int Count = 5;

    private const double LowestA4 = 415;
    private const double HighestA4 = 466;

    // What was read on an instrument that was turned away from, for who turns back.
    private readonly Dictionary<Instrument, bool> _reads = [];

    private Remembered Now => stand.Memory.Now;

    /// <summary>Name of a question.</summary>
    /// <param name="index">0 to 4.</param>
    public static string Question(int index) => index switch
    {
        0 => "instrument",
        1 => "voice",
        2 => "A4",
        3 => "note names",
        _ => "you read",
    };

    /// <summary>The options of a question; the chosen one in brackets.</summary>
    /// <param name="index">0 to 4.</param>
    public string Shown(int index) => index switch
    {
        0 => Bracketed(Enum.GetValues<Instrument>().Select(PlayerWords.Name), (int)Now.Profile.Instrument),
        1 => Bracketed(Enum.GetValues<VoiceKind>().Select(VoiceWords), (int)Now.Profile.Voice),
        2 => string.Create(CultureInfo.InvariantCulture, $"[{Now.Profile.A4Hz:0.##}]    {LowestA4:0} to {HighestA4:0}"),
        3 => Bracketed(["Bb B", "B H", "solfege"], (int)Now.Naming),
        _ => Bracketed(["as it sounds", PlayerWords.TransposedClef(Now.Profile.Instrument)], Now.ReadsTransposed ? 1 : 0),
    };

    /// <summary>Takes the next or the last option.</summary>
    /// <param name="index">0 to 4.</param>
    /// <param name="step">1 or -1.</param>
    public void Change(int index, int step)
    {
        PlayerProfile profile = Now.Profile;
        switch (index)
        {
            case 0:
                _reads[profile.Instrument] = Now.ReadsTransposed;
                SetPlayer(profile.With(Turned(profile.Instrument, step), profile.Voice));
                bool reads = _reads.GetValueOrDefault(Now.Profile.Instrument, Player.IsUsuallyTransposed(Now.Profile.Instrument));
                stand.Memory.Change(now => now with { ReadsTransposed = reads });
                break;
            case 1:
                SetPlayer(profile.With(profile.Instrument, Turned(profile.Voice, step)));
                break;
            case 2:
                double a4 = Math.Clamp(profile.A4Hz + step, LowestA4, HighestA4);
                stand.Memory.Change(now => now with { Profile = profile with { A4Hz = a4 }, Pair = now.Pair with { A4Hz = a4 } });
                break;
            case 3:
                NoteNaming naming = (NoteNaming)(((int)Now.Naming + step + 3) % 3);
                stand.Memory.Change(now => now with { Naming = naming });
                break;
            default:
                stand.Memory.Change(now => now with { ReadsTransposed = !now.ReadsTransposed });
                break;
        }
    }

    // What the word means, in notes that most such voices sing with ease.
    private string VoiceWords(VoiceKind voice) =>
        PlayerProfile.Usual(Now.Profile.Instrument, voice) is var usual ? $"{voice.ToString().ToLowerInvariant()}, {stand.Name(usual.LowestSung)} to {stand.Name(usual.HighestSung)}" : "";

    private static T Turned<T>(T value, int step)
        where T : struct, Enum
    {
        T[] values = Enum.GetValues<T>();
        return values[(Array.IndexOf(values, value) + step + values.Length) % values.Length];
    }

    private static string Bracketed(IEnumerable<string> options, int chosen) =>
        string.Join("   ", options.Select((option, i) => i == chosen ? $"[{option}]" : option));

    private void SetPlayer(PlayerProfile profile)
    {
        stand.Memory.Change(now => now with { Profile = profile, Pair = Remembered.HomePair(profile) });
        stand.UseProfile();
    }
}
