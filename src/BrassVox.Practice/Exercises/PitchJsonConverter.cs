using System.Text.Json;
using System.Text.Json.Serialization;
using BrassVox.Theory;

namespace BrassVox.Practice.Exercises;

internal sealed class PitchJsonConverter : JsonConverter<Pitch>
{
    public override Pitch Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TokenType == JsonTokenType.String && Pitch.TryParse(reader.GetString(), out Pitch pitch)
            ? pitch
            : throw new JsonException("This is no note name; write a letter A to G, b or #, and the octave, as in \"Bb1\".");

    public override void Write(Utf8JsonWriter writer, Pitch value, JsonSerializerOptions options) =>
        writer.WriteStringValue(value.ToString());
}
