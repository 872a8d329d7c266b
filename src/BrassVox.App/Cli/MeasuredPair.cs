using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>What both tones of a measured file do together, the first and last 150 ms of the pair left out.</summary>
internal sealed record MeasuredPair(
    double IntervalCents,
    double BalanceDb,
    IReadOnlyList<MeasuredBeat> Beats,
    IReadOnlyList<MeasuredResultant> Resultants,
    double? CouplingDb,
    double? PullOnPlayedCentsPerSemitone,
    double? PullOnSungCentsPerSemitone,
    MeasuredZone? Capture)
{
    // One tone holds while the other moves: only then is what it does a pull.
    private const double HoldsShare = 0.33;

    // A voice that wanders draws nothing along: it has to be a bend or a glide.
    private const double LeastMovedCents = 45.0;

    public static MeasuredPair? Of(ReadOnlySpan<float> mono, IReadOnlyList<AnalysisFrame> frames)
    {
        AnalysisFrame[] both = [.. frames.Where(x => x is { Played: not null, Sung: not null })];
        if (!MeasuredTone.IsTold(both.Length, frames))
        {
            return null;
        }

        double from = both[0].CentreSeconds + ToneReport.EndsSeconds;
        double to = both[^1].CentreSeconds - ToneReport.EndsSeconds;
        AnalysisFrame[] kept = [.. frames.Where(x => x.CentreSeconds >= from && x.CentreSeconds <= to)];
        IReadOnlyList<AnalysisFrame> used = kept.Any(x => x is { Played: not null, Sung: not null }) ? kept : both;
        PairReport report = PairReport.Of(mono, used);
        return new MeasuredPair(
            Math.Round(report.IntervalCents!.Value, 2),
            Math.Round(report.BalanceDb!.Value, 2),
            [.. report.Beats.Select(x => new MeasuredBeat(x.PlayedHarmonic, x.SungHarmonic, Math.Round(x.RateHz, 3), Math.Round(x.FrequencyHz, 2)))],
            [.. report.Resultants.Select(x => new MeasuredResultant(
                x.Line.Name, Math.Round(x.Line.FrequencyHz, 2), Math.Round(x.LevelDbfs, 1), Math.Round(x.AboveNoiseDb, 1)))],
            report.CouplingDb is { } coupling ? Math.Round(coupling, 1) : null,
            PullOn(used, VoiceRole.Played),
            PullOn(used, VoiceRole.Sung),
            CaptureZone.Of(mono, frames) is { IsCaught: true } zone
                ? new MeasuredZone(zone.PlayedHarmonic, zone.SungHarmonic, Math.Round(zone.LowCents, 1), Math.Round(zone.HighCents, 1))
                : null);
    }

    private static double? PullOn(IReadOnlyList<AnalysisFrame> frames, VoiceRole held)
    {
        VoiceRole moving = held == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played;
        return Pull.Of(frames, moving) is { MovedCents: >= LeastMovedCents } pull && Spread(frames, held) < HoldsShare * pull.MovedCents
            ? Math.Round(pull.CentsPerSemitone, 1)
            : null;
    }

    // 5th to 95th percentile in cents, as a pull counts the movement.
    private static double Spread(IReadOnlyList<AnalysisFrame> frames, VoiceRole role)
    {
        double[] hz = [.. frames.Where(x => x is { Played: not null, Sung: not null })
            .Select(x => (role == VoiceRole.Played ? x.Played : x.Sung)!.Value.FrequencyHz).Order()];
        return Cents.Between(hz[(int)(0.05 * (hz.Length - 1))], hz[(int)(0.95 * (hz.Length - 1))]);
    }
}
