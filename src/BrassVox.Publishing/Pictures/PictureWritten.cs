namespace BrassVox.Publishing.Pictures;

/// <summary>What came of writing a picture.</summary>
/// <param name="Path">Where it lies, or would.</param>
/// <param name="Failure">Why it is not there and what to try; null when it is.</param>
public sealed record PictureWritten(string Path, string? Failure);
