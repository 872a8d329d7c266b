namespace BrassVox.App.Cli;

/// <summary>A resultant that stands out of a recording.</summary>
internal sealed record MeasuredResultant(string Name, double FrequencyHz, double LevelDbfs, double AboveNoiseDb);
