using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Synthesis.Files;
using BrassVox.Theory;

namespace BrassVox.Practice.Log;

/// <summary>The log as JSON: camel case, words for enumerations, unknown keys refused.</summary>
[JsonSourceGenerationOptions(
    WriteIndented = true,
    NewLine = "\n",
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
    RespectNullableAnnotations = true,
    RespectRequiredConstructorParameters = true,
    MaxDepth = 24,
    Converters =
    [
        typeof(PitchJsonConverter),
        typeof(FiniteJsonConverter),
        typeof(GradeJsonConverter),
        typeof(WordJsonConverter<Instrument>),
        typeof(WordJsonConverter<VoiceKind>),
        typeof(WordJsonConverter<VoiceRole>),
        typeof(WordJsonConverter<Verdict>),
        typeof(WordJsonConverter<Fault>),
        typeof(WordJsonConverter<Separability>),
        typeof(WordJsonConverter<SaidPitch>),
        typeof(WordJsonConverter<SaidPair>),
        typeof(WordJsonConverter<SaidLine>),
        typeof(WordJsonConverter<Sureness>),
        typeof(WordJsonConverter<BodyTag>),
        typeof(WordOrNumberJsonConverter<PredictedFigure>),
    ])]
[JsonSerializable(typeof(LogContents))]
internal sealed partial class LogContentsJson : JsonSerializerContext
{
    public static string Text(LogContents contents) => JsonSerializer.Serialize(contents, Default.LogContents) + "\n";

    /// <summary>Reads what <see cref="Text"/> wrote.</summary>
    /// <exception cref="InvalidDataException">It is something else; the message says where.</exception>
    public static LogContents Read(string text, string path)
    {
        try
        {
            if (JsonLines.NullInList(Encoding.UTF8.GetBytes(text)) is { } empty)
            {
                throw new InvalidDataException(PlainLine.Of($"{path}, at {empty}: {JsonWords.NoNull}"));
            }

            LogContents? contents = JsonSerializer.Deserialize(text, Default.LogContents);
            return contents is { FormatVersion: Log.LogContents.Version } && contents.Takes.All(take => take.Expected is not { } expected || Enum.IsDefined(expected.Figure))
                ? contents
                : throw new InvalidDataException($"{path}: not a log of this version; formatVersion {Log.LogContents.Version} is read.");
        }
        catch (JsonException fault)
        {
            throw new InvalidDataException(PlainLine.Of($"{path}, line {(fault.LineNumber ?? 0) + 1}, at {fault.Path ?? "$"}: not a log as takes export writes it."), fault);
        }
    }
}
