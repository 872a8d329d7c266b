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

    private static double? Kept(double? value, int digits) =>
        value is { } number && double.IsFinite(number) ? Math.Round(number, digits) : null;
}
