namespace BrassVox.Publishing.Notation;

/// <summary>What came of engraving a score.</summary>
/// <param name="Svg">The picture as SVG text, cropped to the music; null when there is none.</param>
/// <param name="WhyNot">Why there is none and what would help, one line; null when there is one.</param>
public sealed record Engraving(string? Svg, string? WhyNot);
