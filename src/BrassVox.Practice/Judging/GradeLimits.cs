using System.Text.Json.Serialization;
using BrassVox.Practice.Profiles;

namespace BrassVox.Practice.Judging;

/// <summary>One limit for each grade, in the unit of the criterion that holds it.</summary>
/// <param name="One">Limit of grade I, the widest.</param>
/// <param name="Two">Limit of grade II.</param>
/// <param name="Three">Limit of grade III, the narrowest.</param>
public sealed record GradeLimits(
    [property: JsonPropertyName("I")] double One,
    [property: JsonPropertyName("II")] double Two,
    [property: JsonPropertyName("III")] double Three)
{
    /// <summary>The limit of a grade.</summary>
    /// <param name="grade">The grade.</param>
    public double Of(Grade grade) => grade switch
    {
        Grade.I => One,
        Grade.II => Two,
        _ => Three,
    };
}
