namespace BrassVox.Practice.Scenes;

/// <summary>One scene of a demonstration: what sounds, what stands large, what is said of it.</summary>
/// <param name="FormatVersion">1.</param>
/// <param name="Id">Name in lower case with hyphens, unique; an own scene of the same id replaces a shipped one.</param>
/// <param name="Number">Place in the list, from 1.</param>
/// <param name="Name">Name for people, at most 40 characters.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="About">What there is to hear, at most two short sentences.</param>
/// <param name="Pair">The two tones.</param>
/// <param name="Coupling">Depth of coupling, 0 (separate) to 1.</param>
/// <param name="Only">Name of the only part that sounds, such as S-P; null when more than one does.</param>
/// <param name="Muted">Names of parts that are left out; null or empty for none.</param>
/// <param name="Glide">How one tone moves to its place; null when both stand.</param>
/// <param name="Middle">What stands large between the tones: the name of a part, whose note is written, or <see cref="Beats"/>; null for nothing.</param>
public sealed record Scene(
    int FormatVersion,
    string Id,
    int Number,
    string Name,
    string Source,
    string About,
    ScenePair Pair,
    double Coupling,
    string? Only = null,
    IReadOnlyList<string>? Muted = null,
    SceneGlide? Glide = null,
    string? Middle = null)
{
    /// <summary>The word for the beat rate as what stands large.</summary>
    public const string Beats = "beats";
}
