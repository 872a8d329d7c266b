using System.Text.Json.Serialization;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Scenes;

/// <summary>The scene format: what is not named here is refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingDefault,
    ReadCommentHandling = System.Text.Json.JsonCommentHandling.Skip,
    MaxDepth = 8,
    WriteIndented = true,
    Converters = [typeof(PitchJsonConverter), typeof(WordJsonConverter<VoiceRole>)])]
[JsonSerializable(typeof(Scene))]
internal sealed partial class SceneJson : JsonSerializerContext;
