namespace BrassVox.Practice.Sessions;

/// <summary>The sound of a take.</summary>
/// <param name="Samples">Mono samples, full scale 1.</param>
/// <param name="SampleRateHz">Their rate in Hz.</param>
/// <param name="StartSeconds">Where in the samples the take begins, in seconds.</param>
public sealed record RecordedTake(float[] Samples, int SampleRateHz, double StartSeconds);
