using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Practice.Passages;

namespace BrassVox.App.Cli;

/// <summary>What <c>passage show --json</c> prints.</summary>
internal sealed record PassageShown(
    string Title, int Bars, double Seconds, double SpeakerLowestHz, IReadOnlyList<MomentShown> Moments, IReadOnlyList<double> DifficultyByBar, OctaveSuggestion? OctaveSuggestion, IReadOnlyList<string> Remarks)
{
    public static string Json(Passage passage, PassageReport report)
    {
        var shown = new PassageShown(
            passage.Title, passage.Bars.Count, Math.Round(passage.SecondsAt(passage.LengthTicks), 3), report.SpeakerLowestHz,
            [.. report.Moments.Select(MomentShown.Of)], report.DifficultyByBar, report.Suggestion, passage.Remarks);
        return JsonSerializer.Serialize(shown, PassageJson.Default.PassageShown) + "\n";
    }
}

/// <summary>One moment.</summary>
internal sealed record MomentShown(
    string At, double Seconds, string? Played, string? Sung, bool PlayedBegins, bool SungBegins, double? PlayedHz, double? SungHz,
    string Between, double? Cents, string? Made, double? MadeHz, IReadOnlyList<string> Cares, double Difficulty)
{
    public static MomentShown Of(PassageMoment moment) => new(
        moment.Place, Round(moment.Seconds, 3)!.Value, moment.Played?.ToString(), moment.Sung?.ToString(), moment.PlayedBegins, moment.SungBegins,
        Round(moment.PlayedHz, 6), Round(moment.SungHz, 6), moment.Between, Round(moment.Cents, 6),
        moment.Made?.Note.ToString(), Round(moment.MadeHz, 6),
        [.. moment.Cares.Select(care => char.ToLowerInvariant(care.ToString()[0]) + care.ToString()[1..])], moment.Difficulty);

    private static double? Round(double? value, int digits) => value is { } known ? Math.Round(known, digits) + 0.0 : null;
}

/// <summary>JSON of the passage commands.</summary>
[JsonSourceGenerationOptions(WriteIndented = true, NewLine = "\n", PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(PassageShown))]
internal sealed partial class PassageJson : JsonSerializerContext;
