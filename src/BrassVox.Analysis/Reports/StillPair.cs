using BrassVox.Analysis.Tracking;
using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>Both pitches of a pair that holds still, where lines of the pair beat too slowly for one window to tell them apart.</summary>
/// <remarks>
/// Near a just interval harmonics of one tone, and lines mP+nS, lie a few Hz beside those of the other and draw each window's pitch
/// to and fro with the beat, unevenly, so that the median stays off. Windows of half the stretch resolve them: a line's frequency is
/// the turn of its phase from one such window to the next (exact for steady lines). Nothing is said unless amplitudes and phases of
/// nearly all of a tone's lines are those of steady lines; living tones seldom are. The limits are ours.
/// </remarks>
internal static class StillPair
{
    private const int HighestHarmonic = 8;
    private const int Windows = 5;
    private const double LongestSeconds = 8.0;
    private const double LeastBothShare = 0.9;

    // Lines this many widths of a long window apart do not touch: a Hann window's main lobe ends at 2.
    private const double ClearUnits = 3.0;

    private const double WeakestPower = 0.01;
    private const double MostSwing = 1.4;
    private const double MostTurn = 0.4;
    private const double SteadyShare = 0.8;
    private const double MostApartHz = 0.1;
    private const double MostCents = 5.0;

    // Windows are drawn off by less than this up to a coupling of 0.8; a peak is two widths wide, and steps of a quarter do not miss it.
    private const double LineCents = 10.0;
    private const double StepUnits = 0.25;

    // Within a Hann window's main lobe: beside a line of one's own power falls off to both sides.
    private const double PeakUnits = 1.5;

    /// <summary>P and S in Hz; null where one window does as well, or where the tones move.</summary>
    /// <param name="mono">The take's samples.</param>
    /// <param name="frames">Its frames, ends left out.</param>
    public static (double PlayedHz, double SungHz)? Of(ReadOnlySpan<float> mono, IReadOnlyList<AnalysisFrame> frames)
    {
        AnalysisFrame[] both = [.. frames.Where(x => x is { Played: not null, Sung: not null })];
        if (both.Length < 2)
        {
            return null;
        }

        int rate = both[0].SampleRateHz;
        int half = both[0].LengthSamples / 2;
        long from = both[0].FirstSample + half;
        long to = Math.Min(mono.Length, both[^1].FirstSample + half);
        int between = frames.Count(x => x.FirstSample >= both[0].FirstSample && x.FirstSample <= both[^1].FirstSample);
        long most = (long)(LongestSeconds * rate);
        if (to - from > most)
        {
            from += (to - from - most) / 2;
            to = from + most;
        }

        double p = ToneReport.Median([.. both.Select(x => x.Played!.Value.FrequencyHz)]);
        double s = ToneReport.Median([.. both.Select(x => x.Sung!.Value.FrequencyHz)]);
        double beats = SlowestBeats(p, s, (double)rate / both[0].LengthSamples);
        double longSeconds = 0.5 * (to - from) / rate;
        if (both.Length < LeastBothShare * between || longSeconds <= 0.0 || double.IsNaN(beats) || beats * longSeconds < ClearUnits)
        {
            return null;
        }

        Decimator decimator = new(rate);
        SampleHistory samples = new((int)((to - from) / decimator.Factor) + 1);
        decimator.Push(mono[(int)from..(int)to], samples);
        ReadOnlySpan<float> held = samples.From(0, (int)samples.Added);
        return Found(held, decimator.RateHz, p) is { } played && Found(held, decimator.RateHz, s) is { } sung ? (played, sung) : null;
    }

    // Strongly coupled near a just interval every window is drawn to it by the same few cents, and so is their median: then the tone's own
    // lowest line, which the long window tells from its neighbours, says where it is.
    private static double? Found(ReadOnlySpan<float> held, double rateHz, double hz) =>
        Steady(held, rateHz, hz) ?? (LowestLine(held, rateHz, hz) is { } line ? Steady(held, rateHz, line) : null);

    // Null where nothing peaks within reach: what leaks in from beyond is no line.
    private static double? LowestLine(ReadOnlySpan<float> held, double rateHz, double nearHz)
    {
        double step = StepUnits * rateHz / (held.Length / 2);
        double reach = Cents.Above(nearHz, LineCents) - nearHz;
        (double Power, double Hz) best = (-1.0, nearHz);
        for (double hz = nearHz - reach; hz <= nearHz + reach; hz += step)
        {
            double power = MiddlePower(held, hz / rateHz);
            best = power > best.Power ? (power, hz) : best;
        }

        return Math.Abs(best.Hz - nearHz) < reach - step ? best.Hz : null;
    }

    // Beats that a window cannot resolve; NaN when there are none.
    private static double SlowestBeats(double p, double s, double fastestHz)
    {
        IReadOnlyList<BeatingPair> pairs = BeatingPairs.Of(p, s, HighestHarmonic, fastestHz);
        return pairs.Count == 0 ? double.NaN : pairs.Min(x => x.RateHz);
    }

    private static double? Steady(ReadOnlySpan<float> held, double rateHz, double fundamentalHz)
    {
        int length = held.Length / 2;
        int hop = (held.Length - length) / (Windows - 1);
        Span<double> powers = stackalloc double[HighestHarmonic + 1];
        Span<double> offsets = stackalloc double[HighestHarmonic + 1];
        powers.Clear();
        int highest = Math.Min(HighestHarmonic, (int)(Decimator.BandTopHz / fundamentalHz));
        double all = 0.0;
        double steady = 0.0;
        double strongest = 0.0;
        for (int k = 1; k <= highest; k++)
        {
            (double power, double? offset) = Line(held, length, hop, k * fundamentalHz / rateHz);
            all += power;
            if (offset is { } cyclesPerSample)
            {
                (powers[k], offsets[k]) = (power, cyclesPerSample * rateHz);
                steady += power;
                strongest = Math.Max(strongest, power);
            }
        }

        if (steady < SteadyShare * all || steady <= 0.0)
        {
            return null;
        }

        double sum = 0.0;
        double weights = 0.0;
        for (int k = 1; k <= highest; k++)
        {
            double weight = powers[k] > WeakestPower * strongest ? powers[k] * k * k : 0.0;
            sum += weight * offsets[k] / k;
            weights += weight;
        }

        double away = sum / weights;
        for (int k = 1; k <= highest; k++)
        {
            if (powers[k] > WeakestPower * strongest && Math.Abs(offsets[k] - (k * away)) > MostApartHz)
            {
                return null;
            }
        }

        double hz = fundamentalHz + away;
        return Math.Abs(Cents.Between(fundamentalHz, hz)) <= MostCents && IsPeak(held, rateHz, hz) ? hz : null;
    }

    // What leaks from a strong line some widths away is as steady as that line, but falls off to one side only.
    private static bool IsPeak(ReadOnlySpan<float> held, double rateHz, double hz)
    {
        double beside = PeakUnits * rateHz / (held.Length / 2);
        double here = MiddlePower(held, hz / rateHz);
        return here > MiddlePower(held, (hz - beside) / rateHz) && here > MiddlePower(held, (hz + beside) / rateHz);
    }

    private static double MiddlePower(ReadOnlySpan<float> held, double cyclesPerSample)
    {
        int length = held.Length / 2;
        (double re, double im) = At(held.Slice((held.Length - length) / 2, length), cyclesPerSample, 0);
        return (re * re) + (im * im);
    }

    // Power of a line, and how far off it lies in cycles per sample when it is steady.
    private static (double Power, double? Offset) Line(ReadOnlySpan<float> held, int length, int hop, double cyclesPerSample)
    {
        Span<double> turns = stackalloc double[Windows - 1];
        (double Re, double Im) before = default;
        double least = double.MaxValue;
        double most = 0.0;
        double total = 0.0;
        double turned = 0.0;
        for (int i = 0; i < Windows; i++)
        {
            (double Re, double Im) here = At(held.Slice(i * hop, length), cyclesPerSample, i * hop);
            double power = (here.Re * here.Re) + (here.Im * here.Im);
            (least, most, total) = (Math.Min(least, power), Math.Max(most, power), total + power);
            if (i > 0)
            {
                turns[i - 1] = Math.Atan2((here.Im * before.Re) - (here.Re * before.Im), (here.Re * before.Re) + (here.Im * before.Im));
                turned += turns[i - 1] / turns.Length;
            }

            before = here;
        }

        bool isSteady = most <= MostSwing * MostSwing * least;
        foreach (double turn in turns)
        {
            isSteady &= Math.Abs(turn - turned) <= MostTurn;
        }

        return (total / Windows, isSteady ? turned / (2.0 * Math.PI * hop) : null);
    }

    // One line through a Hann window, its phase counted from sample 0; a phasor turned sample by sample.
    private static (double Re, double Im) At(ReadOnlySpan<float> window, double cyclesPerSample, int first)
    {
        double step = 2.0 * Math.PI * cyclesPerSample;
        (double turnSin, double turnCos) = Math.SinCos(step);
        (double hannSin, double hannCos) = Math.SinCos(2.0 * Math.PI / window.Length);
        (double s, double c) = Math.SinCos(step * first);
        (double hs, double hc) = (0.0, 1.0);
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

        return (re / window.Length, im / window.Length);
    }
}
