using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>How wide a vibrato really swings: a window of 160 ms holds most of a swing and shows less of it.</summary>
/// <remarks>
/// The sound itself decides: along a pitch curve whose swing is as wide as the voice's, its harmonics gather most energy. No
/// assumption about the spectrum is needed. Harmonics beside a harmonic of the other tone are left out, and where some are left those
/// whose widest swing would reach one: a curve that sweeps over a louder line gathers that. Measured and judged takes
/// ask here alike.
/// </remarks>
public static class SwingWidth
{
    private const double Widest = 2.5;
    private const double CoarseStep = 0.1;
    private const double ClearHz = 25.0;
    private const int MostHarmonics = 10;
    private const int MostWindows = 12;

    /// <summary>By how much the shown swing has to be widened, 1 to 2.5. Pure; takes some tens of milliseconds.</summary>
    /// <param name="mono">The sound, full scale 1; empty for none, which widens nothing.</param>
    /// <param name="windows">Windows that hold the tone, in order of time; about twelve of them, evenly chosen, are read.</param>
    /// <param name="curve">The tone's pitch curve, with a swing.</param>
    public static double Scale(ReadOnlySpan<float> mono, IReadOnlyList<SwingWindow> windows, PitchCurve curve)
    {
        ArgumentNullException.ThrowIfNull(windows);
        int samples = mono.Length;
        SwingWindow[] whole = [.. windows.Where(window => window.Frame.FirstSample >= 0 && window.Frame.FirstSample + window.Frame.LengthSamples <= samples)];
        int step = Math.Max(1, whole.Length / MostWindows);
        (SwingWindow Window, bool[] Clear)[] chosen = [.. whole.Where((_, i) => i % step == 0).Select(window => (window, Clear(window.ZeroHz, window.OtherHz, Widest * curve.ShownCents)))];
        if (chosen.Length == 0)
        {
            return 1.0;
        }

        double best = 1.0;
        double most = -1.0;
        for (double scale = 1.0; scale <= Widest; scale += CoarseStep)
        {
            double gathered = Gathered(mono, chosen, curve, scale);
            if (gathered > most)
            {
                (most, best) = (gathered, scale);
            }
        }

        // A parabola through the best and its neighbours.
        double below = Gathered(mono, chosen, curve, best - CoarseStep);
        double above = Gathered(mono, chosen, curve, best + CoarseStep);
        double bend = (2.0 * most) - below - above;
        return bend > 0.0 ? best + (0.5 * CoarseStep * Math.Clamp((above - below) / bend, -1.0, 1.0)) : best;
    }

    private static bool[] Clear(double hz, double? otherHz, double widestCents)
    {
        int harmonics = Math.Clamp((int)(Tracking.Decimator.BandTopHz / hz), 1, MostHarmonics);
        foreach (double reach in (double[])[Cents.ToRatio(widestCents) - 1.0, 0.0])
        {
            bool[] clear = [.. Enumerable.Range(1, harmonics).Select(k =>
            {
                double nearest = otherHz is { } other ? other * Math.Max(1.0, Math.Round(k * hz / other)) : double.PositiveInfinity;
                return Math.Abs((k * hz) - nearest) > ClearHz + (reach * k * hz);
            })];
            if (Array.IndexOf(clear, true) >= 0)
            {
                return clear;
            }
        }

        return [.. Enumerable.Repeat(true, harmonics)];
    }

    private static double Gathered(ReadOnlySpan<float> mono, (SwingWindow Window, bool[] Clear)[] windows, PitchCurve curve, double scale)
    {
        Span<double> re = stackalloc double[MostHarmonics];
        Span<double> im = stackalloc double[MostHarmonics];
        double total = 0.0;
        foreach ((SwingWindow window, bool[] clear) in windows)
        {
            AnalysisFrame frame = window.Frame;
            int harmonics = clear.Length;
            re.Clear();
            im.Clear();
            double turn = 0.0;
            double begins = window.Seconds - (0.5 * frame.LengthSamples / frame.SampleRateHz);
            for (int i = 0; i < frame.LengthSamples; i++)
            {
                double seconds = begins + ((double)i / frame.SampleRateHz);
                turn += 2.0 * Math.PI * Cents.Above(window.ZeroHz, curve.CentsAt(seconds, scale)) / frame.SampleRateHz;
                double weight = mono[(int)frame.FirstSample + i] * (1.0 - Math.Cos(2.0 * Math.PI * i / frame.LengthSamples));
                (double sin, double cos) = Math.SinCos(turn);
                (double c, double s) = (cos, sin);
                for (int k = 0; k < harmonics; k++)
                {
                    re[k] += weight * c;
                    im[k] -= weight * s;
                    (c, s) = ((c * cos) - (s * sin), (c * sin) + (s * cos));
                }
            }

            for (int k = 0; k < harmonics; k++)
            {
                total += !clear[k] ? 0.0 : (re[k] * re[k]) + (im[k] * im[k]);
            }
        }

        return total;
    }
}
