using BrassVox.Analysis;

namespace BrassVox.Practice.Takes;

/// <summary>One frame as it is kept.</summary>
/// <param name="TimeSeconds">Centre of the frame on the clock of the take's sound, in seconds.</param>
/// <param name="PlayedHz">P in Hz; null when not told.</param>
/// <param name="SungHz">S in Hz; null when not told.</param>
/// <param name="BeatsPerSecond">Beats per second; null when not told.</param>
/// <param name="LevelDbfs">Level of the whole window in dBFS.</param>
/// <param name="Separability">Whether the two could be told apart.</param>
public sealed record TakeFrame(
    double TimeSeconds, double? PlayedHz, double? SungHz, double? BeatsPerSecond, double LevelDbfs, Separability Separability)
{
    /// <summary>A frame as it is kept: rounded far below what can be heard, nothing that is not finite.</summary>
    /// <param name="frame">The frame.</param>
    public static TakeFrame Of(AnalysisFrame frame) => new(
        Math.Round(frame.CentreSeconds, 6),
        Kept(frame.Played?.FrequencyHz, 4),
        Kept(frame.Sung?.FrequencyHz, 4),
        Kept(frame.BeatRateHz, 3),
        Kept(frame.LevelDbfs, 1) ?? -200,
        frame.Separability);

    /// <summary>A kept frame as the analysis gave it; levels of single tones and confidences are not kept.</summary>
    /// <param name="sampleRateHz">Rate of the take's sound in Hz.</param>
    /// <param name="zeroSeconds">What second of the take's sound the clock of the frame begins at.</param>
    public AnalysisFrame ToAnalysis(int sampleRateHz, double zeroSeconds = 0)
    {
        int length = sampleRateHz * 16 / 100;
        return new AnalysisFrame(
            (long)Math.Round(((TimeSeconds - zeroSeconds) * sampleRateHz) - (0.5 * length)), length, sampleRateHz, LevelDbfs,
            Estimate(PlayedHz), Estimate(SungHz), BeatsPerSecond, Separability);
    }

    private PitchEstimate? Estimate(double? hz) => hz is { } known ? new PitchEstimate(known, LevelDbfs, 1) : null;

    private static double? Kept(double? value, int digits) =>
        value is { } number && double.IsFinite(number) ? Math.Round(number, digits) : null;
}
