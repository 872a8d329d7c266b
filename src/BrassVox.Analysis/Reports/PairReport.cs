using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>What the two tones of a take did to one another.</summary>
/// <param name="IntervalCents">S above P in cents: the median, or from both pitches where a still pair beats slowly; null when no frame held both.</param>
/// <param name="BalanceDb">Median level of S above P in dB; null likewise.</param>
/// <param name="Beats">Harmonics that nearly meet and their rates at the pitches so found, lowest first.</param>
/// <param name="SwellHz">Median beat rate of the frames whose tones could not be told apart; null when none gave one.</param>
/// <param name="Resultants">Resultants of order 2 and 3 that stand out of the recording, strongest first.</param>
/// <param name="CouplingDb">Level of the lines P + S and |P - S| against that of both tones, in dB; null when neither line can be told from a harmonic or from noise.</param>
/// <param name="SeparableShare">Share of the sounding frames in which the two could be told apart.</param>
public sealed record PairReport(
    double? IntervalCents,
    double? BalanceDb,
    IReadOnlyList<BeatingPair> Beats,
    double? SwellHz,
    IReadOnlyList<SoundingResultant> Resultants,
    double? CouplingDb,
    double SeparableShare)
{
    private const int HighestOrder = 3;
    private const int HighestBeatingHarmonic = 8;

    /// <summary>Reads a take.</summary>
    /// <param name="mono">The take's samples, full scale 1.</param>
    /// <param name="frames">Its frames, from <see cref="TakeMeasurement.Frames"/>.</param>
    /// <returns>A new report. Pure, any thread.</returns>
    /// <remarks>A take is read as one pair: give a glide in pieces. The coupling index cannot see coupling at octaves and twelfths, where its lines fall on harmonics.</remarks>
    public static PairReport Of(ReadOnlySpan<float> mono, IReadOnlyList<AnalysisFrame> frames)
    {
        ArgumentNullException.ThrowIfNull(frames);
        int sounding = frames.Count(x => x.Separability != Separability.Silent);
        AnalysisFrame[] both = [.. frames.Where(x => x.Played is not null && x.Sung is not null)];
        double? swell = Median(frames.Where(x => x.Separability == Separability.NotSeparable).Select(x => x.BeatRateHz).OfType<double>());
        double share = sounding == 0 ? 0.0 : (double)frames.Count(x => x.Separability == Separability.Separable) / sounding;
        if (both.Length == 0)
        {
            return new PairReport(null, null, [], swell, [], null, share);
        }

        double p = Median(both.Select(x => x.Played!.Value.FrequencyHz))!.Value;
        double s = Median(both.Select(x => x.Sung!.Value.FrequencyHz))!.Value;
        (double PlayedHz, double SungHz)? still = StillPair.Of(mono, frames);
        (p, s) = still ?? (p, s);
        IReadOnlyList<SoundingResultant> lines = ResultantMeter.Sounding(mono, both, p, s, HighestOrder);
        double? tones = Median(both.Select(x => 10.0 * Math.Log10(Power(x.Played!.Value.LevelDbfs) + Power(x.Sung!.Value.LevelDbfs))));
        double products = lines.Where(x => x.Line.Order == 2).Sum(x => Power(x.LevelDbfs));
        return new PairReport(
            still is null ? Median(both.Select(x => Cents.Between(x.Played!.Value.FrequencyHz, x.Sung!.Value.FrequencyHz))) : Cents.Between(p, s),
            Median(both.Select(x => x.Sung!.Value.LevelDbfs - x.Played!.Value.LevelDbfs)),
            BeatingPairs.Of(p, s, HighestBeatingHarmonic),
            swell,
            lines,
            products > 0.0 ? (10.0 * Math.Log10(products)) - tones : null,
            share);
    }

    private static double Power(double levelDb) => Math.Pow(10.0, 0.1 * levelDb);

    private static double? Median(IEnumerable<double> values)
    {
        double[] all = [.. values];
        return all.Length == 0 ? null : ToneReport.Median(all);
    }
}
