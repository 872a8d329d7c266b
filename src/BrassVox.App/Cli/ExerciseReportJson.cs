using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>JSON of the exercise commands; a judged take prints itself, see TakeRecord.</summary>
[JsonSourceGenerationOptions(
    WriteIndented = true,
    NewLine = "\n",
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    Converters = [typeof(RoleJsonConverter)])]
[JsonSerializable(typeof(IReadOnlyList<ExerciseLineReport>))]
[JsonSerializable(typeof(ExerciseReport))]
[JsonSerializable(typeof(ListeningReport))]
internal sealed partial class ExerciseReportJson : JsonSerializerContext
{
    public static string Text(IReadOnlyList<ExerciseLineReport> lines) => JsonSerializer.Serialize(lines, Default.IReadOnlyListExerciseLineReport) + "\n";

    public static string Text(ExerciseReport report) => JsonSerializer.Serialize(report, Default.ExerciseReport) + "\n";

    public static string Text(ListeningReport report) => JsonSerializer.Serialize(report, Default.ListeningReport) + "\n";

    internal sealed class RoleJsonConverter() : JsonStringEnumConverter<VoiceRole>(JsonNamingPolicy.CamelCase);
}
