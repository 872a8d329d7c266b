using BrassVox.Practice.Files;

namespace BrassVox.Practice.Scenes;

/// <summary>The scene format as a JSON Schema, made from the types that read it.</summary>
public static class SceneSchema
{
    /// <summary>The schema as indented JSON text (JSON Schema draft 2020-12), ending with a new line.</summary>
    public static string ToJson() => DataSchema.ToJson(SceneJson.Default.Options, typeof(Scene), "BrassVox scene, format version 1");
}
