namespace BrassVox.Benchmarks.Ratios;

/// <summary>A hot job of ours beside reference work.</summary>
/// <param name="Name">Name, as it stands on record.</param>
/// <param name="Own">Our work.</param>
/// <param name="OwnSeconds">Sound it covers, in seconds.</param>
/// <param name="ReferenceName">What the reference is.</param>
/// <param name="Reference">Its work.</param>
/// <param name="ReferenceSeconds">Sound it covers, in seconds.</param>
internal sealed record RatioJob(string Name, Action Own, double OwnSeconds, string ReferenceName, Action Reference, double ReferenceSeconds);
