namespace BrassVox.Publishing.Handouts;

/// <summary>A handout that is whole.</summary>
/// <param name="Path">The file.</param>
/// <param name="Exercises">How many exercises and passages it holds.</param>
/// <param name="Takes">How many takes are looked at in it, one by one.</param>
/// <param name="Bytes">Its size in bytes.</param>
public sealed record HandoutWritten(string Path, int Exercises, int Takes, long Bytes);
