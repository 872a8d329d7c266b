using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Audio;

namespace BrassVox.App.Cli;

/// <summary>JSON of the command line: camel case, indented, the same bytes in every culture.</summary>
[JsonSourceGenerationOptions(WriteIndented = true, NewLine = "\n", PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(ResultantsReport))]
[JsonSerializable(typeof(MeasureReport))]
[JsonSerializable(typeof(IReadOnlyList<AudioDevice>))]
internal sealed partial class CliJson : JsonSerializerContext
{
    public static string Text(ResultantsReport report) => JsonSerializer.Serialize(report, Default.ResultantsReport) + "\n";

    public static string Text(IReadOnlyList<AudioDevice> devices) => JsonSerializer.Serialize(devices, Default.IReadOnlyListAudioDevice) + "\n";

    public static string Text(MeasureReport report) => JsonSerializer.Serialize(report, Default.MeasureReport) + "\n";
}
