using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Synthesis.Files;
using BrassVox.Theory;

namespace BrassVox.Practice.Takes;

/// <summary>The format of kept takes: camel case, words for enumerations, unknown keys refused.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    MaxDepth = 16,
    Converters =
    [
        typeof(PitchJsonConverter),
        typeof(FiniteJsonConverter),
        typeof(GradeJsonConverter),
        typeof(WordJsonConverter<Instrument>),
        typeof(WordJsonConverter<VoiceKind>),
        typeof(WordJsonConverter<VoiceRole>),
        typeof(WordJsonConverter<PredictedFigure>),
        typeof(WordJsonConverter<Verdict>),
        typeof(WordJsonConverter<Fault>),
        typeof(WordJsonConverter<Separability>),
        typeof(WordJsonConverter<SaidPitch>),
        typeof(WordJsonConverter<SaidPair>),
        typeof(WordJsonConverter<SaidLine>),
        typeof(WordJsonConverter<Sureness>),
    ])]
[JsonSerializable(typeof(TakeRecord))]
internal sealed partial class TakeJson : JsonSerializerContext
{
    /// <summary>Reads a record.</summary>
    /// <param name="text">Its JSON.</param>
    /// <exception cref="JsonException">It is something else.</exception>
    public static TakeRecord Read(string text) =>
        JsonLines.NullInList(Encoding.UTF8.GetBytes(text)) is null && JsonSerializer.Deserialize(text, Default.TakeRecord) is { } record
            ? record
            : throw new JsonException("the record is empty or has an empty place");
}
