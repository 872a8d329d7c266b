using System.Text.Json;
using System.Text.Json.Serialization;

namespace BrassVox.Practice.Exercises;

/// <summary>Enumerations written as words in lower camel case; numbers, as older files have them, are read too, whatever they mean: the reader checks that.</summary>
internal sealed class WordOrNumberJsonConverter<T>() : JsonStringEnumConverter<T>(JsonNamingPolicy.CamelCase, allowIntegerValues: true)
    where T : struct, Enum;
