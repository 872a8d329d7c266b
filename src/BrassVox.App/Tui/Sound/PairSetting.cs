using System.Globalization;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Sound;

/// <summary>A pair as set by the player: two notes, a tuning, offsets and the coupling.</summary>
/// <param name="Played">P.</param>
/// <param name="Sung">S.</param>
/// <param name="TuningName">equal, just, pythagorean or meantone; all but equal from P.</param>
/// <param name="A4Hz">A4 in Hz, 400 to 480.</param>
/// <param name="Coupling">Depth, 0 (separate) to 1.</param>
/// <param name="PlayedCents">Cents added to P.</param>
/// <param name="SungCents">Cents added to S.</param>
internal sealed record PairSetting(
    Pitch Played, Pitch Sung, string TuningName, double A4Hz, double Coupling, double PlayedCents = 0, double SungCents = 0)
{
    /// <summary>Largest offset of one tone, in cents.</summary>
    public const double MostCents = 600;

    /// <summary>The tuning's names in the order that the key steps through.</summary>
    public static IReadOnlyList<string> TuningNames { get; } = ["equal", "just", "pythagorean", "meantone"];

    /// <summary>P in Hz, offset included.</summary>
    public double PlayedHz => Cents.Above(DeclaredHz(VoiceRole.Played), PlayedCents);

    /// <summary>S in Hz, offset included.</summary>
    public double SungHz => Cents.Above(DeclaredHz(VoiceRole.Sung), SungCents);

    /// <summary>Distance from P to S in cents; negative when S lies below.</summary>
    public double IntervalCents => Cents.Between(PlayedHz, SungHz);

    /// <summary>One tone in Hz as named, without its offset.</summary>
    /// <param name="role">The tone.</param>
    public double DeclaredHz(VoiceRole role) =>
        (Tuning.TryParse(TuningName, Played, out Tuning? tuning) ? tuning : Tuning.Equal)
            .FrequencyHz(role == VoiceRole.Played ? Played : Sung, A4Hz);

    /// <summary>The note of one tone.</summary>
    /// <param name="role">The tone.</param>
    public Pitch Note(VoiceRole role) => role == VoiceRole.Played ? Played : Sung;

    /// <summary>The offset of one tone in cents.</summary>
    /// <param name="role">The tone.</param>
    public double OffsetCents(VoiceRole role) => role == VoiceRole.Played ? PlayedCents : SungCents;

    /// <summary>The same with one tone's offset moved, kept within <see cref="MostCents"/>.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="cents">Step in cents.</param>
    public PairSetting Nudged(VoiceRole role, double cents) => role == VoiceRole.Played
        ? this with { PlayedCents = Math.Clamp(PlayedCents + cents, -MostCents, MostCents) }
        : this with { SungCents = Math.Clamp(SungCents + cents, -MostCents, MostCents) };

    /// <summary>The same with one tone's note replaced; its offset goes.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="note">The note.</param>
    public PairSetting WithNote(VoiceRole role, Pitch note) => role == VoiceRole.Played
        ? this with { Played = note, PlayedCents = 0 }
        : this with { Sung = note, SungCents = 0 };

    /// <summary>One tone as written in a header: F4 or F4 +8 c.</summary>
    /// <param name="role">The tone.</param>
    /// <param name="name">Writes a note's name.</param>
    public string Described(VoiceRole role, Func<Pitch, string> name) => OffsetCents(role) == 0
        ? name(Note(role))
        : string.Create(CultureInfo.InvariantCulture, $"{name(Note(role))} {OffsetCents(role):+0.#;-0.#} c");
}
