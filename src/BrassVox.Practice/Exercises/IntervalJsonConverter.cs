using System.Text.Json;
using System.Text.Json.Serialization;

namespace BrassVox.Practice.Exercises;

internal sealed class IntervalJsonConverter : JsonConverter<Interval>
{
    public override Interval Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.String && Interval.TryParse(reader.GetString(), out Interval interval)
            ? interval
            : throw new JsonException("This is no interval; write P1, m3, M3, P4, P5, M6, P8, M10, P12, with a minus sign when downwards.");

    public override void Write(Utf8JsonWriter writer, Interval value, JsonSerializerOptions options) =>
        writer.WriteStringValue(value.ToString());
}
