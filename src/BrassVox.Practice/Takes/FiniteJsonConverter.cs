using System.Text.Json;
using System.Text.Json.Serialization;

namespace BrassVox.Practice.Takes;

/// <summary>Numbers to a millionth of their unit; one that is not finite is a mistake of ours and is refused by name.</summary>
internal sealed class FiniteJsonConverter : JsonConverter<double>
{
    public override double Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.GetDouble() is var value && double.IsFinite(value) ? value : throw new JsonException("a number is larger than any can be");

    public override void Write(Utf8JsonWriter writer, double value, JsonSerializerOptions options)
    {
        if (!double.IsFinite(value))
        {
            throw new InvalidOperationException($"A take cannot hold {value}: what is not known is null.");
        }

        writer.WriteNumberValue(Math.Round(value, 6) + 0.0);
    }
}
