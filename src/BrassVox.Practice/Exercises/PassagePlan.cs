using BrassVox.Practice.Passages;

namespace BrassVox.Practice.Exercises;

/// <summary>A passage in place of steps.</summary>
/// <param name="Name">Name of a shipped passage; it lies there in a version for each voice.</param>
/// <param name="FromBar">First bar, from 1.</param>
/// <param name="ToBar">Last bar; null for the end.</param>
/// <param name="Help">How much help sounds.</param>
public sealed record PassagePlan(string Name, int FromBar = 1, int? ToBar = null, HelpStep Help = HelpStep.Cue);
