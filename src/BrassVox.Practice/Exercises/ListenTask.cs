namespace BrassVox.Practice.Exercises;

/// <summary>Only listen.</summary>
public sealed record ListenTask : PlayerTask;
