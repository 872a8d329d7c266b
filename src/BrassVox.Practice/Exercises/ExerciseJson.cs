using System.Text.Json.Serialization;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

/// <summary>The exercise format: what is not named here is refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    AllowOutOfOrderMetadataProperties = true,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    ReadCommentHandling = System.Text.Json.JsonCommentHandling.Skip,
    MaxDepth = 16,
    WriteIndented = true,
    Converters =
    [
        typeof(PitchJsonConverter),
        typeof(IntervalJsonConverter),
        typeof(WordJsonConverter<VoicePlace>),
        typeof(WordJsonConverter<Move>),
        typeof(WordJsonConverter<Cue>),
        typeof(WordJsonConverter<PredictedFigure>),
        typeof(WordJsonConverter<Caution>),
        typeof(WordJsonConverter<DifficultySetting>),
        typeof(WordJsonConverter<VoiceRole>),
        typeof(WordJsonConverter<Passages.HelpStep>),
    ])]
[JsonSerializable(typeof(Exercise))]
internal sealed partial class ExerciseJson : JsonSerializerContext;
