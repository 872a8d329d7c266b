namespace BrassVox.App.Cli;

/// <summary>What came back of a signal that was played.</summary>
/// <param name="Samples">The recording from the block in which the signal started; empty when there was trouble.</param>
/// <param name="SampleRateHz">Its rate in Hz.</param>
/// <param name="Trouble">Why nothing was recorded, or what broke off; null when all went well.</param>
internal sealed record LoopRecording(float[] Samples, int SampleRateHz, string? Trouble);
