using System.Text.Json.Serialization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.Practice.Profiles;

/// <summary>The format of player files: camel case, words for enumerations, unknown keys refused.</summary>
[JsonSourceGenerationOptions(
    WriteIndented = true,
    NewLine = "\n",
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    Converters =
    [
        typeof(PitchJsonConverter),
        typeof(GradeJsonConverter),
        typeof(WordJsonConverter<Instrument>),
        typeof(WordJsonConverter<VoiceKind>),
        typeof(WordJsonConverter<NoteNaming>),
        typeof(WordJsonConverter<DisplayUnit>),
    ])]
[JsonSerializable(typeof(Player))]
internal sealed partial class PlayerJson : JsonSerializerContext;
