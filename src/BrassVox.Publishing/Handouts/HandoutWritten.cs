namespace BrassVox.Publishing.Handouts;

/// <summary>A handout that is whole.</summary>
/// <param name="Path">The file.</param>
/// <param name="Exercises">How many exercises and passages it holds.</param>
/// <param name="Bytes">Its size in bytes.</param>
public sealed record HandoutWritten(string Path, int Exercises, long Bytes);
