using System.Text.Json;
using System.Text.Json.Serialization;

namespace BrassVox.App.Tui.Input;

/// <summary>The file keys.json of the data folder.</summary>
/// <param name="FormatVersion">1.</param>
/// <param name="Letters">Other letters for meanings named by their id; what is left out keeps its usual letter.</param>
internal sealed record KeyFile(int FormatVersion, IReadOnlyDictionary<string, string> Letters);

/// <summary>How keys.json is read.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    ReadCommentHandling = JsonCommentHandling.Skip,
    MaxDepth = 4)]
[JsonSerializable(typeof(KeyFile))]
internal sealed partial class KeyFileJson : JsonSerializerContext;
