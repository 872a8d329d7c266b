namespace BrassVox.Analysis.Reports;

/// <summary>A pitch curve as centre, drift, vibrato and rest, by least squares: the one rule of what counts as vibrato, for measuring and judging alike.</summary>
/// <param name="MiddleSeconds">Where the centre is counted from.</param>
/// <param name="CentreCents">Pitch there.</param>
/// <param name="SlopeCentsPerSecond">Drift.</param>
/// <param name="RateHz">Rate of the vibrato, 0 when there is none.</param>
/// <param name="CosineCents">Its cosine part as the windows show it.</param>
/// <param name="SineCents">Its sine part.</param>
/// <param name="SpreadCents">Standard deviation of the rest.</param>
public readonly record struct PitchCurve(
    double MiddleSeconds, double CentreCents, double SlopeCentsPerSecond, double RateHz, double CosineCents, double SineCents, double SpreadCents)
{
    private const double SlowestHz = 3.0;
    private const double FastestHz = 9.0;
    private const double GridHz = 0.05;

    // A swing counts when it explains half of what moves, over three swings or more, and is wider than steady notes wander.
    private const double LeastShare = 0.5;
    private const double LeastSwings = 3.0;
    private const double LeastWidthCents = 3.0;

    /// <summary>Fits a curve: a line, and a swing of 3 to 9 Hz where one explains half of what moves, three swings or more, 3 cents wide or more as the windows show it.</summary>
    /// <param name="seconds">Times in order, at least two.</param>
    /// <param name="cents">The pitch at each, in cents.</param>
    public static PitchCurve Fit(double[] seconds, double[] cents)
    {
        double middle = 0.5 * (seconds[0] + seconds[^1]);
        double length = seconds[^1] - seconds[0];
        double[] t = [.. seconds.Select(x => x - middle)];
        double[] line = Solve(t, cents, null, out double lineLeft);
        double[] best = line;
        double bestLeft = lineLeft;
        double bestRate = 0.0;
        for (double rate = Math.Max(SlowestHz, LeastSwings / Math.Max(length, 1e-9)); rate <= FastestHz; rate += GridHz)
        {
            double[] fit = Solve(t, cents, rate, out double left);
            if (left < bestLeft)
            {
                (best, bestLeft, bestRate) = (fit, left, rate);
            }
        }

        bool swings = best.Length == 4 && bestLeft < (1.0 - LeastShare) * lineLeft
            && Math.Sqrt((best[2] * best[2]) + (best[3] * best[3])) >= LeastWidthCents;
        return swings
            ? new PitchCurve(middle, best[0], best[1], bestRate, best[2], best[3], Math.Sqrt(bestLeft / t.Length))
            : new PitchCurve(middle, line[0], line[1], 0.0, 0.0, 0.0, Math.Sqrt(lineLeft / t.Length));
    }

    /// <summary>The swing to each side in cents as the windows show it; 0 when there is none. <see cref="SwingWidth"/> says how much wider it is.</summary>
    public double ShownCents => Math.Sqrt((CosineCents * CosineCents) + (SineCents * SineCents));

    /// <summary>Pitch in cents at a time in seconds, the swing taken some times as wide as the windows show it.</summary>
    public double CentsAt(double seconds, double swingScale)
    {
        double t = seconds - MiddleSeconds;
        double angle = 2.0 * Math.PI * RateHz * t;
        return CentreCents + (SlopeCentsPerSecond * t) + (swingScale * ((CosineCents * Math.Cos(angle)) + (SineCents * Math.Sin(angle))));
    }

    // Constant and slope, with a rate also cosine and sine; normal equations of at most four unknowns.
    private static double[] Solve(double[] t, double[] y, double? rateHz, out double left)
    {
        int n = rateHz is null ? 2 : 4;
        double[,] a = new double[n, n + 1];
        double[] row = new double[n];
        for (int i = 0; i < t.Length; i++)
        {
            Fill(row, t[i], rateHz);
            for (int j = 0; j < n; j++)
            {
                for (int k = 0; k < n; k++)
                {
                    a[j, k] += row[j] * row[k];
                }

                a[j, n] += row[j] * y[i];
            }
        }

        for (int j = 0; j < n; j++)
        {
            for (int k = j + 1; k < n; k++)
            {
                double factor = a[k, j] / (a[j, j] + 1e-12);
                for (int m = j; m <= n; m++)
                {
                    a[k, m] -= factor * a[j, m];
                }
            }
        }

        double[] x = new double[n];
        for (int j = n - 1; j >= 0; j--)
        {
            double sum = a[j, n];
            for (int k = j + 1; k < n; k++)
            {
                sum -= a[j, k] * x[k];
            }

            x[j] = sum / (a[j, j] + 1e-12);
        }

        left = 0.0;
        for (int i = 0; i < t.Length; i++)
        {
            Fill(row, t[i], rateHz);
            double rest = y[i];
            for (int j = 0; j < n; j++)
            {
                rest -= row[j] * x[j];
            }

            left += rest * rest;
        }

        return x;
    }

    private static void Fill(double[] row, double t, double? rateHz)
    {
        row[0] = 1.0;
        row[1] = t;
        if (rateHz is { } rate)
        {
            row[2] = Math.Cos(2.0 * Math.PI * rate * t);
            row[3] = Math.Sin(2.0 * Math.PI * rate * t);
        }
    }
}
