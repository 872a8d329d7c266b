using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>Levels of the lines m P + n S in a recording, followed from frame to frame.</summary>
internal static class ResultantMeter
{
    // Lines nearer to a harmonic than this, in cycles per window, cannot be told from it in a Hann window.
    private const double ClearUnits = 2.0;
    private const double BesideUnits = 2.5;

    // In noise the median of a line lies within 2 dB of the median beside it: 9 dB is no chance.
    private const double LeastAboveDb = 9.0;

    // A line stands where it is said when what stands there peaks within this, in cycles per window (1 Hz or so): hum beside it peaks elsewhere.
    private const double OffUnits = 0.2;
    private const double AsideUnits = 0.5;

    // What the neighbouring harmonics leak through the window's side lobes; a line has to stand this many dB over the most that can be.
    private const double OverLeakDb = 6.0;
    private const double LowestHz = 20.0;
    private const double HighestHz = 2_000.0;
    private const int MostFrames = 60;

    public static IReadOnlyList<SoundingResultant> Sounding(
        ReadOnlySpan<float> mono, AnalysisFrame[] both, double playedHz, double sungHz, int order)
    {
        List<SoundingResultant> found = [];
        int step = Math.Max(1, both.Length / MostFrames);
        foreach (Resultant line in Resultants.Of(playedHz, sungHz, order))
        {
            if (line.IsHarmonic || line.FrequencyHz is < LowestHz or > HighestHz)
            {
                continue;
            }

            List<double> on = [];
            List<double> beside = [];
            List<double> leaked = [];
            List<double> off = [];
            for (int i = 0; i < both.Length; i += step)
            {
                AnalysisFrame frame = both[i];
                double p = frame.Played!.Value.FrequencyHz;
                double s = frame.Sung!.Value.FrequencyHz;
                double unit = (double)frame.SampleRateHz / frame.LengthSamples;
                double hz = (line.Played * p) + (line.Sung * s);
                if (Clearance(hz, p, s) < ClearUnits * unit || frame.FirstSample + frame.LengthSamples > mono.Length)
                {
                    continue;
                }

                ReadOnlySpan<float> window = mono.Slice((int)frame.FirstSample, frame.LengthSamples);
                on.Add(Power(window, hz / frame.SampleRateHz));
                leaked.Add(LeakedPower(window, frame.SampleRateHz, unit, hz, p, s));
                off.Add(OffPlace(Power(window, (hz - (AsideUnits * unit)) / frame.SampleRateHz), Power(window, (hz + (AsideUnits * unit)) / frame.SampleRateHz)));
                foreach (double at in (ReadOnlySpan<double>)[hz - (BesideUnits * unit), hz + (BesideUnits * unit)])
                {
                    if (at > 0.0 && Clearance(at, p, s) > ClearUnits * unit)
                    {
                        beside.Add(Power(window, at / frame.SampleRateHz));
                    }
                }
            }

            // Only a line that is clear in most frames says anything.
            if (on.Count < 0.5 * both.Length / step || beside.Count == 0)
            {
                continue;
            }

            double level = 10.0 * Math.Log10(ToneReport.Median([.. on]) + 1e-20);
            double above = level - (10.0 * Math.Log10(ToneReport.Median([.. beside]) + 1e-20));
            double overLeak = level - (10.0 * Math.Log10(ToneReport.Median([.. leaked]) + 1e-20));
            if (above >= LeastAboveDb && overLeak >= OverLeakDb && Math.Abs(ToneReport.Median([.. off])) <= OffUnits)
            {
                found.Add(new SoundingResultant(line, level, above));
            }
        }

        found.Sort((a, b) => b.LevelDbfs.CompareTo(a.LevelDbfs));
        return found;
    }

    // The most that the harmonics nearest to a line can leave there: the side lobes of a Hann window fall as 1 / (pi d (d^2 - 1)), d in
    // cycles per window (exact mathematics), and those of several may add up.
    private static double LeakedPower(ReadOnlySpan<float> window, int rateHz, double unit, double hz, double playedHz, double sungHz)
    {
        double amplitude = 0.0;
        foreach (double fundamental in (ReadOnlySpan<double>)[playedHz, sungHz])
        {
            double below = Math.Floor(hz / fundamental);
            foreach (double number in (ReadOnlySpan<double>)[below, below + 1.0])
            {
                double apart = Math.Abs(hz - (number * fundamental)) / unit;
                if (number > 0.0 && apart > 1.0)
                {
                    amplitude += Math.Sqrt(Power(window, number * fundamental / rateHz)) / (Math.PI * apart * ((apart * apart) - 1.0));
                }
            }
        }

        return amplitude * amplitude;
    }

    // Where a line peaks, in cycles per window from where it was looked for, by its powers half a cycle below and above: through a Hann
    // window, sinc(d) / (1 - d^2), the two amplitudes of one steady line are as 1.5 - d to 1.5 + d (exact mathematics).
    private static double OffPlace(double below, double above)
    {
        double ratio = Math.Sqrt(above / Math.Max(below, 1e-30));
        return 1.5 * (ratio - 1.0) / (ratio + 1.0);
    }

    private static double Clearance(double hz, double playedHz, double sungHz) => Math.Min(ToHarmonic(hz, playedHz), ToHarmonic(hz, sungHz));

    private static double ToHarmonic(double hz, double fundamentalHz) =>
        Math.Abs(hz - (fundamentalHz * Math.Max(1.0, Math.Round(hz / fundamentalHz))));

    // Squared amplitude of one line through a Hann window; a phasor turned sample by sample.
    private static double Power(ReadOnlySpan<float> window, double cyclesPerSample)
    {
        double step = 2.0 * Math.PI * cyclesPerSample;
        (double turnSin, double turnCos) = Math.SinCos(step);
        double slow = 2.0 * Math.PI / window.Length;
        (double hannSin, double hannCos) = Math.SinCos(slow);
        (double c, double s, double hc, double hs) = (1.0, 0.0, 1.0, 0.0);
        double re = 0.0;
        double im = 0.0;
        foreach (float x in window)
        {
            double w = x * (1.0 - hc);
            re += w * c;
            im -= w * s;
            (c, s) = ((c * turnCos) - (s * turnSin), (c * turnSin) + (s * turnCos));
            (hc, hs) = ((hc * hannCos) - (hs * hannSin), (hc * hannSin) + (hs * hannCos));
        }

        double scale = 2.0 / window.Length;
        return scale * scale * ((re * re) + (im * im));
    }
}
