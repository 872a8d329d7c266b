using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>One tone of a measured file. Pitch and level are medians over the frames in which it was found, its first and last 150 ms left out where it lasts long enough.</summary>
internal sealed record MeasuredTone(double FrequencyHz, string Note, double Cents, double? OffsetCents, double LevelDbfs, double FramesShare)
{
    /// <summary>Straight-line change from beginning to end; null, as all below, when the tone is too short for it.</summary>
    public double? DriftCents { get; init; }

    /// <summary>Standard deviation of what drift and vibrato leave.</summary>
    public double? SpreadCents { get; init; }

    /// <summary>Swings of a vibrato in a second; null also when there is none.</summary>
    public double? VibratoRateHz { get; init; }

    /// <summary>Its width to either side.</summary>
    public double? VibratoWidthCents { get; init; }

    /// <summary>When the tone began, on the clock of the file; null also when it may have sounded before it was first told.</summary>
    public double? OnsetSeconds { get; init; }

    /// <summary>When it was first told, where that was not in the first window and nothing tells whether it sounded before; null otherwise.</summary>
    public double? ToldFromSeconds { get; init; }

    /// <summary>Octaves, up when positive, from the pitch told here to the one in which it was read most often otherwise; null when it was in none.</summary>
    public int? OtherOctave { get; init; }

    /// <summary>Share of its frames read in other octaves, 0 to 1.</summary>
    public double? OtherOctaveShare { get; init; }

    /// <summary>How much of the tone was measured.</summary>
    public double? MeasuredSeconds { get; init; }

    // Told for no longer than an attack, and in hardly any of the file, it is a guess, not a tone. Ours.
    private const double LeastSeconds = 0.2;
    private const double LeastShare = 0.02;

    public static MeasuredTone? Of(ReadOnlySpan<float> mono, IReadOnlyList<AnalysisFrame> frames, VoiceRole role, double? askedHz, double a4Hz)
    {
        PitchEstimate[] found = [.. frames.Select(x => role == VoiceRole.Played ? x.Played : x.Sung).OfType<PitchEstimate>()];
        if (!IsTold(found.Length, frames))
        {
            return null;
        }

        ToneReport? report = ToneReport.Of(mono, frames, role, askedHz);
        double hz = report?.CentreHz ?? Median.Of(found.Select(estimate => estimate.FrequencyHz));
        NearestNote nearest = NearestNote.Of(hz, a4Hz);
        return new MeasuredTone(
            Math.Round(hz, 4),
            nearest.Note.ToString(),
            Math.Round(nearest.Cents, 2),
            askedHz is { } asked ? Math.Round(Theory.Cents.Between(asked, hz), 2) : null,
            Math.Round(report?.LevelDbfs ?? Median.Of(found.Select(estimate => estimate.LevelDbfs)), 2),
            Math.Round((double)found.Length / frames.Count, 4))
        {
            DriftCents = Rounded(report?.DriftCents, 2),
            SpreadCents = Rounded(report?.SpreadCents, 2),
            VibratoRateHz = Rounded(report?.Vibrato?.RateHz, 2),
            VibratoWidthCents = Rounded(report?.Vibrato?.WidthCents, 1),
            OnsetSeconds = report is { IsOnsetHeard: true } ? Rounded(report.OnsetSeconds, 3) : null,
            ToldFromSeconds = report is { IsOnsetHeard: false } && report.OnsetSeconds > frames[0].CentreSeconds ? Rounded(report.OnsetSeconds, 3) : null,
            OtherOctave = report is { OtherOctaveShare: > 0.0 } ? report.OtherOctave : null,
            OtherOctaveShare = report is { OtherOctaveShare: > 0.0 } ? Rounded(report.OtherOctaveShare, 4) : null,
            MeasuredSeconds = Rounded(report?.MeasuredSeconds, 3),
        };
    }

    /// <summary>Whether what so many frames told is more than a guess.</summary>
    public static bool IsTold(int count, IReadOnlyList<AnalysisFrame> frames)
    {
        double hop = frames.Count < 2 ? 0.0 : frames[1].CentreSeconds - frames[0].CentreSeconds;
        return count > 0 && (count * hop >= LeastSeconds || count > LeastShare * frames.Count);
    }

    private static double? Rounded(double? value, int digits) => value is { } x ? Math.Round(x, digits) : null;
}
