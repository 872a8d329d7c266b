namespace BrassVox.Practice.Judging;

/// <summary>A tone's cents over time as offset, line, vibrato and what is left.</summary>
/// <param name="OffsetCents">Median in cents.</param>
/// <param name="DriftCents">Rise of the fitted line from the beginning to the end of the tone, in cents.</param>
/// <param name="SpreadCents">Standard deviation of what line and vibrato leave, in cents.</param>
/// <param name="VibratoPerSecond">Vibrato rate in Hz; null for none.</param>
/// <param name="VibratoCents">Vibrato to each side in cents; null for none.</param>
internal sealed record LineFit(
    double OffsetCents, double DriftCents, double SpreadCents, double? VibratoPerSecond, double? VibratoCents)
{
    private const int FewestPoints = 10;

    // 4 to 8 Hz covers the 5 to 7 Hz of sung vibrato (common range, from memory) with room on both sides.
    private const double SlowestVibratoHz = 4;
    private const double FastestVibratoHz = 8;

    // Below these a regular wobble is called wander: ours, to be tried with players.
    private const double SmallestVibratoCents = 8;
    private const double SmallestVibratoShare = 0.5;

    /// <summary>Fits points in order of time; null for fewer than ten, or shorter than 0.1 s.</summary>
    /// <param name="points">Seconds and cents.</param>
    /// <param name="beyondSeconds">How much longer the tone was than its counted points: the line is drawn on to its ends.</param>
    public static LineFit? Of(IReadOnlyList<(double Seconds, double Cents)> points, double beyondSeconds)
    {
        if (points.Count < FewestPoints || points[^1].Seconds - points[0].Seconds < 0.09)
        {
            return null;
        }

        double meanSeconds = points.Average(point => point.Seconds);
        double meanCents = points.Average(point => point.Cents);
        double slope = points.Sum(point => (point.Seconds - meanSeconds) * (point.Cents - meanCents))
            / points.Sum(point => (point.Seconds - meanSeconds) * (point.Seconds - meanSeconds));
        double[] rest = [.. points.Select(point => point.Cents - meanCents - (slope * (point.Seconds - meanSeconds)))];
        double length = points[^1].Seconds - points[0].Seconds;

        double power = rest.Average(r => r * r);
        (double hz, double amplitude, double share) = StrongestWobble(points, rest, power);
        bool hasVibrato = length >= 2 / SlowestVibratoHz && amplitude >= SmallestVibratoCents && share >= SmallestVibratoShare;
        double left = hasVibrato ? power * Math.Max(0, 1 - share) : power;
        return new LineFit(
            Median.Of(points.Select(point => point.Cents)),
            slope * (length + beyondSeconds),
            Math.Sqrt(left),
            hasVibrato ? hz : null,
            hasVibrato ? amplitude : null);
    }

    private static (double Hz, double Amplitude, double Share) StrongestWobble(
        IReadOnlyList<(double Seconds, double Cents)> points, double[] rest, double power)
    {
        (double Hz, double Amplitude, double Share) best = (0, 0, 0);
        if (power <= 0)
        {
            return best;
        }

        for (double hz = SlowestVibratoHz; hz <= FastestVibratoHz; hz += 0.05)
        {
            double cc = 0, ss = 0, cs = 0, rc = 0, rs = 0;
            for (int i = 0; i < rest.Length; i++)
            {
                (double sin, double cos) = Math.SinCos(2 * Math.PI * hz * points[i].Seconds);
                cc += cos * cos;
                ss += sin * sin;
                cs += cos * sin;
                rc += rest[i] * cos;
                rs += rest[i] * sin;
            }

            double determinant = (cc * ss) - (cs * cs);
            double a = ((rc * ss) - (rs * cs)) / determinant;
            double b = ((rs * cc) - (rc * cs)) / determinant;
            double share = ((a * rc) + (b * rs)) / (rest.Length * power);
            if (share > best.Share)
            {
                best = (hz, Math.Sqrt((a * a) + (b * b)), share);
            }
        }

        return best;
    }
}
