using System.Text.Json.Serialization;

namespace BrassVox.Synthesis.Living;

/// <summary>Reads and writes bores without reflection, strictly.</summary>
[JsonSourceGenerationOptions(
    WriteIndented = true,
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UseStringEnumConverter = true,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectRequiredConstructorParameters = true,
    RespectNullableAnnotations = true)]
[JsonSerializable(typeof(BrassBore))]
internal sealed partial class BrassBoreJson : JsonSerializerContext;
