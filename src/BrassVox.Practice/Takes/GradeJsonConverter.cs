using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Practice.Profiles;

namespace BrassVox.Practice.Takes;

/// <summary>Grades by their Roman numbers, as they are shown.</summary>
internal sealed class GradeJsonConverter : JsonConverter<Grade>
{
    public override Grade Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.GetString() switch
    {
        "I" => Grade.I,
        "II" => Grade.II,
        "III" => Grade.III,
        _ => throw new JsonException("A grade is I, II or III."),
    };

    public override void Write(Utf8JsonWriter writer, Grade value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString());
}
