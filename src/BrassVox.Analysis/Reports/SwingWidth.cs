using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>How wide a vibrato really swings: a window of 160 ms holds most of a swing and shows less of it.</summary>
/// <remarks>
/// The sound itself decides: along a pitch curve whose swing is as wide as the voice's, its harmonics gather most energy. No
/// assumption about the spectrum is needed. Harmonics beside a harmonic of the other tone are left out.
/// </remarks>
internal static class SwingWidth
{
    private const double Widest = 2.5;
    private const double CoarseStep = 0.1;
    private const double ClearHz = 25.0;
    private const int MostHarmonics = 10;
    private const int MostWindows = 12;

    /// <summary>By how much the shown swing has to be widened.</summary>
    public static double Scale(ReadOnlySpan<float> mono, AnalysisFrame[] frames, PitchCurve curve, double referenceHz, double? otherHz)
    {
        bool[] clear = Clear(referenceHz, otherHz);
        double best = 1.0;
        double most = -1.0;
        for (double scale = 1.0; scale <= Widest; scale += CoarseStep)
        {
            double gathered = Gathered(mono, frames, curve, referenceHz, clear, scale);
            if (gathered > most)
            {
                (most, best) = (gathered, scale);
            }
        }

        // A parabola through the best and its neighbours.
        double below = Gathered(mono, frames, curve, referenceHz, clear, best - CoarseStep);
        double above = Gathered(mono, frames, curve, referenceHz, clear, best + CoarseStep);
        double bend = (2.0 * most) - below - above;
        return bend > 0.0 ? best + (0.5 * CoarseStep * Math.Clamp((above - below) / bend, -1.0, 1.0)) : best;
    }

    private static bool[] Clear(double hz, double? otherHz)
    {
        bool[] clear = new bool[Math.Clamp((int)(Tracking.Decimator.BandTopHz / hz), 1, MostHarmonics)];
        for (int k = 1; k <= clear.Length; k++)
        {
            double nearest = otherHz is { } other ? other * Math.Max(1.0, Math.Round(k * hz / other)) : double.PositiveInfinity;
            clear[k - 1] = Math.Abs((k * hz) - nearest) > ClearHz;
        }

        if (Array.IndexOf(clear, true) < 0)
        {
            Array.Fill(clear, true);
        }

        return clear;
    }

    private static double Gathered(ReadOnlySpan<float> mono, AnalysisFrame[] frames, PitchCurve curve, double referenceHz, bool[] clear, double scale)
    {
        int harmonics = clear.Length;
        Span<double> re = stackalloc double[MostHarmonics];
        Span<double> im = stackalloc double[MostHarmonics];
        double total = 0.0;
        int step = Math.Max(1, frames.Length / MostWindows);
        for (int f = 0; f < frames.Length; f += step)
        {
            AnalysisFrame frame = frames[f];
            if (frame.FirstSample + frame.LengthSamples > mono.Length)
            {
                continue;
            }

            re.Clear();
            im.Clear();
            double turn = 0.0;
            for (int i = 0; i < frame.LengthSamples; i++)
            {
                double seconds = (double)(frame.FirstSample + i) / frame.SampleRateHz;
                turn += 2.0 * Math.PI * Cents.Above(referenceHz, curve.CentsAt(seconds, scale)) / frame.SampleRateHz;
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
