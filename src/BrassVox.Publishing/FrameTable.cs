using System.Globalization;
using BrassVox.Analysis;

namespace BrassVox.Publishing;

/// <summary>Frames as comma-separated values (RFC 4180): one row a frame, an unknown value is an empty cell.</summary>
public static class FrameTable
{
    /// <summary>The heading. The first five columns are a contract; further ones may follow later.</summary>
    public const string Heading =
        "timeSeconds,playedHz,sungHz,beatsPerSecond,separable,playedDbfs,sungDbfs,playedConfidence,sungConfidence,levelDbfs";

    /// <summary>Writes heading and rows, the same bytes in every culture.</summary>
    /// <param name="output">Where to write.</param>
    /// <param name="frames">Frames in order of time; the time of a row is the centre of its window.</param>
    public static void Write(TextWriter output, IEnumerable<AnalysisFrame> frames)
    {
        output.Write(Heading);
        output.Write('\n');
        foreach (AnalysisFrame frame in frames)
        {
            output.Write(string.Join(
                ',',
                Cell(frame.CentreSeconds, "F4"),
                Cell(frame.Played?.FrequencyHz, "F4"),
                Cell(frame.Sung?.FrequencyHz, "F4"),
                Cell(frame.BeatRateHz, "F3"),
                SeparableCell(frame.Separability),
                Cell(frame.Played?.LevelDbfs, "F2"),
                Cell(frame.Sung?.LevelDbfs, "F2"),
                Cell(frame.Played?.Confidence, "F3"),
                Cell(frame.Sung?.Confidence, "F3"),
                Cell(frame.LevelDbfs, "F2")));
            output.Write('\n');
        }
    }

    private static string Cell(double? value, string format) =>
        value is { } number && double.IsFinite(number) ? number.ToString(format, CultureInfo.InvariantCulture) : string.Empty;

    private static string SeparableCell(Separability separability) => separability switch
    {
        Separability.Separable => "true",
        Separability.NotSeparable => "false",
        _ => string.Empty,
    };
}
