namespace BrassVox.Analysis.Sensation;

/// <summary>What the sensation meters accept.</summary>
internal static class SensationFormat
{
    /// <summary>Refuses a rate or a calibration outside the range.</summary>
    /// <param name="sampleRateHz">Rate in Hz.</param>
    /// <param name="fullScaleDbSpl">Level of a full-scale sine in dB SPL.</param>
    internal static void Check(int sampleRateHz, double fullScaleDbSpl)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sampleRateHz, 8_000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(sampleRateHz, 192_000);
        if (!double.IsFinite(fullScaleDbSpl))
        {
            throw new ArgumentOutOfRangeException(nameof(fullScaleDbSpl), fullScaleDbSpl, "The level of full scale in dB must be finite.");
        }
    }
}
