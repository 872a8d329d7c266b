using System.Text.Json;
using System.Text.Json.Serialization;

namespace BrassVox.Practice.Exercises;

/// <summary>Enumerations as words in lower camel case, never as numbers.</summary>
internal sealed class WordJsonConverter<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.CamelCase, allowIntegerValues: false)
    where T : struct, Enum;
