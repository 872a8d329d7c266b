namespace BrassVox.App.Cli;

/// <summary>Two harmonics of a measured pair that nearly meet, at the pitches measured.</summary>
internal sealed record MeasuredBeat(int PlayedHarmonic, int SungHarmonic, double BeatsPerSecond, double FrequencyHz);
