using System.Text.Json;
using System.Text.Json.Serialization;

namespace BrassVox.Synthesis;

/// <summary>Reads presets without reflection, strictly: unknown, missing and null values are refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectRequiredConstructorParameters = true,
    RespectNullableAnnotations = true,
    ReadCommentHandling = JsonCommentHandling.Disallow)]
[JsonSerializable(typeof(BrassPreset))]
[JsonSerializable(typeof(VoicePreset))]
internal sealed partial class TonePresetJson : JsonSerializerContext;
