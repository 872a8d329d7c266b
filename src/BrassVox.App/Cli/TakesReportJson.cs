using System.Text.Json;
using System.Text.Json.Serialization;

namespace BrassVox.App.Cli;

/// <summary>JSON of the commands that look back and plan.</summary>
[JsonSourceGenerationOptions(WriteIndented = true, NewLine = "\n", PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(IReadOnlyList<TakeLineReport>))]
[JsonSerializable(typeof(MapReport))]
[JsonSerializable(typeof(PlanReport))]
[JsonSerializable(typeof(IReadOnlyList<PlayerReport>))]
internal sealed partial class TakesReportJson : JsonSerializerContext
{
    public static string Text(IReadOnlyList<TakeLineReport> takes) => JsonSerializer.Serialize(takes, Default.IReadOnlyListTakeLineReport) + "\n";

    public static string Text(MapReport map) => JsonSerializer.Serialize(map, Default.MapReport) + "\n";

    public static string Text(PlanReport plan) => JsonSerializer.Serialize(plan, Default.PlanReport) + "\n";

    public static string Text(IReadOnlyList<PlayerReport> players) => JsonSerializer.Serialize(players, Default.IReadOnlyListPlayerReport) + "\n";
}
