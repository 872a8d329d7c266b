using BrassVox.Practice.Profiles;

namespace BrassVox.App.Cli;

/// <summary>A player as <c>profile list --json</c> prints it.</summary>
internal sealed record PlayerReport(
    string Name,
    bool IsCurrent,
    string Instrument,
    string Voice,
    string LowestSung,
    string HighestSung,
    string? RegisterChange,
    double A4Hz,
    string Tuning,
    string Aim,
    string NoteNames,
    bool ReadsTransposed,
    string Unit)
{
    public static PlayerReport Of(Player player, bool isCurrent) => new(
        player.Name, isCurrent, Word(player.Profile.Instrument), Word(player.Profile.Voice), player.Profile.LowestSung.ToString(), player.Profile.HighestSung.ToString(),
        player.Profile.RegisterChange?.ToString(), player.Profile.A4Hz, player.Profile.TuningName, player.Profile.Aim.ToString(), Word(player.NoteNames), player.ReadsTransposed, Word(player.Unit));

    private static string Word<T>(T value)
        where T : struct, Enum => value.ToString().ToLowerInvariant();
}
