namespace BrassVox.Synthesis;

/// <summary>What a source is asked to render: the rate and the largest block.</summary>
/// <param name="SampleRateHz">Samples per second, 8000 to 384000. There is no default anywhere.</param>
/// <param name="MaxBlockSamples">Largest span that one call of Render will pass, at least 1.</param>
public readonly record struct RenderFormat(int SampleRateHz, int MaxBlockSamples);
