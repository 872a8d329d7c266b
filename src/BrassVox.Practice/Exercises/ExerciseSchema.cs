using BrassVox.Practice.Files;

namespace BrassVox.Practice.Exercises;

/// <summary>The exercise format as a JSON Schema, made from the types that read it.</summary>
public static class ExerciseSchema
{
    /// <summary>The schema as indented JSON text (JSON Schema draft 2020-12), ending with a new line.</summary>
    public static string ToJson() =>
        DataSchema.ToJson(ExerciseJson.Default.Options, typeof(Exercise), "BrassVox exercise, format version 1");
}
