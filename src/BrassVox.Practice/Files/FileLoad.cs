namespace BrassVox.Practice.Files;

/// <summary>What came of reading a file of data: the whole of it, or the problem.</summary>
/// <param name="Value">What the file holds; null when there is a problem.</param>
/// <param name="Problem">The problem; null when there is none.</param>
/// <typeparam name="T">What the file holds.</typeparam>
public sealed record FileLoad<T>(T? Value, FileProblem? Problem)
    where T : class;
