using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization.Metadata;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Files;

/// <summary>A JSON Schema made from the types that read a file, so that the two cannot differ.</summary>
internal static class DataSchema
{
    private const string NotePattern = "^[A-Ga-g](b|bb|#|##|x|♭|♯|♮|𝄫|𝄪)?-?[0-9]$";
    private const string IntervalPattern = "^-?[PMmAd][1-9][0-9]?$";

    /// <summary>The schema as indented JSON text (JSON Schema draft 2020-12), ending with a new line.</summary>
    /// <param name="options">How the files are read.</param>
    /// <param name="type">What a file holds.</param>
    /// <param name="title">Title of the schema.</param>
    public static string ToJson(JsonSerializerOptions options, Type type, string title)
    {
        var exporting = new JsonSchemaExporterOptions
        {
            TreatNullObliviousAsNonNullable = true,
            TransformSchemaNode = Describe,
        };
        var schema = (JsonObject)options.GetJsonSchemaAsNode(type, exporting);
        schema.Insert(0, "$schema", "https://json-schema.org/draft/2020-12/schema");
        schema.Insert(1, "title", title);
        return schema.ToJsonString(new JsonSerializerOptions(options) { WriteIndented = true, NewLine = "\n" }) + "\n";
    }

    // The exporter does not know what a converter of ours reads and leaves such properties open; they are filled in here.
    private static JsonNode Describe(JsonSchemaExporterContext context, JsonNode schema)
    {
        if (schema is JsonObject whole && whole["properties"] is JsonObject properties)
        {
            foreach (JsonPropertyInfo property in context.TypeInfo.Properties.Where(property => properties.ContainsKey(property.Name)))
            {
                Type type = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
                if (type == typeof(Pitch))
                {
                    properties[property.Name] = Text(NotePattern, "Note: letter, accidental, octave, as in Bb1");
                }
                else if (type == typeof(Interval))
                {
                    properties[property.Name] = Text(IntervalPattern, "Interval above, minus when below: P1, m3, M3, P5, -M3, P12");
                }
            }
        }

        return schema;
    }

    private static JsonObject Text(string pattern, string description) => new()
    {
        ["type"] = "string",
        ["pattern"] = pattern,
        ["description"] = description,
    };
}
