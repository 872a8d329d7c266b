using BrassVox.Analysis.Reports;

namespace BrassVox.Practice.Judging;

/// <summary>A tone's cents over time as offset, line, vibrato and what is left. What is vibrato and how wide it is, <see cref="PitchCurve"/> and <see cref="SwingWidth"/> say, as they do where a sound is measured.</summary>
/// <param name="OffsetCents">Median in cents.</param>
/// <param name="DriftCents">Rise of the fitted line from the beginning to the end of the tone, in cents.</param>
/// <param name="SpreadCents">Standard deviation of what line and vibrato leave, in cents.</param>
/// <param name="VibratoPerSecond">Vibrato rate in Hz; null for none.</param>
/// <param name="VibratoCents">Vibrato to each side in cents; null for none.</param>
internal sealed record PitchLine(
    double OffsetCents, double DriftCents, double SpreadCents, double? VibratoPerSecond, double? VibratoCents)
{
    private const int FewestPoints = 10;
    private const double ShortestSeconds = 0.09;

    /// <summary>Fits points in order of time; null for fewer than ten, or shorter than 0.1 s.</summary>
    /// <param name="points">Seconds and cents.</param>
    /// <param name="beyondSeconds">How much longer the tone was than its counted points: the line is drawn on to its ends.</param>
    /// <param name="widthOf">By how much the swing of a curve is wider than its windows show; null where they show all of it.</param>
    public static PitchLine? Of(IReadOnlyList<(double Seconds, double Cents)> points, double beyondSeconds, Func<PitchCurve, double>? widthOf = null)
    {
        if (points.Count < FewestPoints || points[^1].Seconds - points[0].Seconds < ShortestSeconds)
        {
            return null;
        }

        var curve = PitchCurve.Fit([.. points.Select(point => point.Seconds)], [.. points.Select(point => point.Cents)]);
        bool swings = curve.RateHz > 0;
        return new PitchLine(
            Median.Of(points.Select(point => point.Cents)),
            curve.SlopeCentsPerSecond * (points[^1].Seconds - points[0].Seconds + beyondSeconds),
            curve.SpreadCents,
            swings ? curve.RateHz : null,
            swings ? curve.ShownCents * (widthOf?.Invoke(curve) ?? 1) : null);
    }
}
