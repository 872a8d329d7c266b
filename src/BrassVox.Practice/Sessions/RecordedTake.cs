namespace BrassVox.Practice.Sessions;

/// <summary>The sound of a take.</summary>
/// <param name="Samples">Mono samples, full scale 1.</param>
/// <param name="SampleRateHz">Their rate in Hz.</param>
/// <param name="StartSeconds">Where in the samples the take begins, in seconds.</param>
public sealed record RecordedTake(float[] Samples, int SampleRateHz, double StartSeconds)
{
    // -90 dBFS: the last bit of 16; nothing a player sounds lies under it.
    private const float SilentBelow = 3.2e-5f;

    /// <summary>True when nothing at all reached the microphone, as from a muted one.</summary>
    public bool IsSilent => !Array.Exists(Samples, sample => Math.Abs(sample) > SilentBelow);
}
