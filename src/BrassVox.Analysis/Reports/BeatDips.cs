namespace BrassVox.Analysis.Reports;

/// <summary>The moments at which two passing harmonics cancel most.</summary>
internal static class BeatDips
{
    private const double FastestHz = 9.0;
    private const double StepSeconds = 0.004;

    // A dip has to lie this far under the crests on both of its sides, as share of what the whole stretch moves; and that
    // stretch has to move by this share of its crests.
    private const double LeastDepth = 0.2;
    private const double LeastSwell = 0.15;

    // Length of the Hann window, in periods of the lower tone, that shuts the neighbouring harmonics out.
    private const double NeighboursOut = 2.2;

    /// <summary>Times of the dips in seconds, in order.</summary>
    public static double[] Of(ReadOnlySpan<float> mono, int rateHz, GlideMeeting meeting)
    {
        double reach = FastestHz / Math.Max(Math.Abs(meeting.SlopeHz), 1e-6);
        int half = (int)(0.5 * NeighboursOut / meeting.LowerToneHz * rateHz);
        double from = Math.Max(meeting.Seconds - reach, (half + 1.0) / rateHz);
        double to = Math.Min(meeting.Seconds + reach, (mono.Length - half - 2.0) / rateHz);
        int count = Math.Max(0, (int)((to - from) / StepSeconds));
        double[] amplitude = new double[count];
        for (int i = 0; i < count; i++)
        {
            double at = from + (i * StepSeconds);
            amplitude[i] = Amplitude(mono.Slice((int)(at * rateHz) - half, (2 * half) + 1), meeting.MiddleAt(at) / rateHz);
        }

        return [.. Dips(amplitude).Select(i => from + (i * StepSeconds))];
    }

    // Turning points, each at least the least depth away from the one before.
    private static List<double> Dips(double[] amplitude)
    {
        List<double> dips = [];
        double[] sorted = [.. amplitude.Order()];
        if (sorted.Length == 0)
        {
            return dips;
        }

        double crest = sorted[(int)(0.95 * (sorted.Length - 1))];
        double swell = crest - sorted[(int)(0.05 * (sorted.Length - 1))];
        if (swell < LeastSwell * crest)
        {
            return dips;
        }

        double depth = LeastDepth * swell;

        int low = 0;
        int high = 0;
        bool falling = false;
        for (int i = 1; i < amplitude.Length; i++)
        {
            if (falling)
            {
                low = amplitude[i] < amplitude[low] ? i : low;
                if (amplitude[i] > amplitude[low] + depth)
                {
                    dips.Add(Between(amplitude, low));
                    falling = false;
                    high = i;
                }
            }
            else
            {
                high = amplitude[i] > amplitude[high] ? i : high;
                if (amplitude[i] < amplitude[high] - depth)
                {
                    falling = true;
                    low = i;
                }
            }
        }

        return dips;
    }

    private static double Between(double[] amplitude, int i)
    {
        if (i == 0 || i == amplitude.Length - 1)
        {
            return i;
        }

        double bend = amplitude[i - 1] - (2.0 * amplitude[i]) + amplitude[i + 1];
        return bend > 0.0 ? i + (0.5 * (amplitude[i - 1] - amplitude[i + 1]) / bend) : i;
    }

    private static double Amplitude(ReadOnlySpan<float> window, double cyclesPerSample)
    {
        int half = window.Length / 2;
        (double turnSin, double turnCos) = Math.SinCos(2.0 * Math.PI * cyclesPerSample);
        (double bellSin, double bellCos) = Math.SinCos(Math.PI / (half + 1));
        (double c, double s) = (1.0, 0.0);
        (double hannCos, double hannSin) = (1.0, 0.0);
        double re = window[half];
        double im = 0.0;
        for (int i = 1; i <= half; i++)
        {
            (c, s) = ((c * turnCos) - (s * turnSin), (c * turnSin) + (s * turnCos));
            (hannCos, hannSin) = ((hannCos * bellCos) - (hannSin * bellSin), (hannCos * bellSin) + (hannSin * bellCos));
            double weight = 0.5 + (0.5 * hannCos);
            re += weight * c * (window[half + i] + window[half - i]);
            im += weight * s * (window[half - i] - window[half + i]);
        }

        return Math.Sqrt((re * re) + (im * im));
    }
}
