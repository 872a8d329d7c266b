using BrassVox.Analysis;
using BrassVox.Audio.Wav;
using BrassVox.Practice.Judging;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>What <c>measure --json</c> prints: medians over the frames in which a value was known; null where it never was.</summary>
internal sealed record MeasureReport(
    string File,
    int SampleRateHz,
    double DurationSeconds,
    int Frames,
    double SeparableShare,
    double NotSeparableShare,
    double SilentShare,
    MeasuredTone? Played,
    MeasuredTone? Sung,
    double? IntervalCents,
    double? BeatsPerSecond)
{
    /// <summary>Share of the frames that give both pitches.</summary>
    public double BothShare { get; init; }

    /// <summary>Share of the frames with two tones apart of which nothing tells which is played: neither pitch is given.</summary>
    public double RolesOpenShare { get; init; }

    /// <summary>Middle pitches of those frames in Hz, the lower tone first; null when there are none.</summary>
    public OpenTones? RolesOpen { get; init; }

    /// <summary>Share of the frames with one harmonic series of which nothing tells whether it is played, sung, or both where they meet.</summary>
    public double OneSeriesShare { get; init; }

    /// <summary>The series of those frames; null when there are none.</summary>
    public OpenSeries? OneSeries { get; init; }

    /// <summary>Share of the frames that give one pitch only.</summary>
    public double OneToneShare { get; init; }

    /// <summary>What both tones do together; null when no frame gives both.</summary>
    public MeasuredPair? Pair { get; init; }

    /// <summary>Another note found in place of a named one; null where there is none, and where both were found.</summary>
    public OtherNoteHeard? OtherNote { get; init; }

    /// <summary>Two other tones found in place of the named ones; null where there are none, and where <see cref="OtherNote"/> tells it.</summary>
    public OtherPairHeard? OtherPair { get; init; }

    /// <summary>What came of looking for a drone; null when none was named.</summary>
    public DroneReport? Drone { get; init; }

    /// <summary>Tones that slide by over half a semitone although nobody said that they move; null for none.</summary>
    public IReadOnlyList<string>? Leaves { get; init; }

    /// <summary>How often the recording was cut off at its loudest; 0 for a whole one.</summary>
    public int FlatTops { get; init; }

    /// <summary>Where it first was, in seconds; null for a whole one.</summary>
    public double? FirstFlatTopSeconds { get; init; }

    /// <summary>How the take sounds to a listener; null when not asked.</summary>
    public SensationReport? Sensation { get; init; }

    public static MeasureReport Of(
        string file, WavSound sound, ReadOnlySpan<float> mono, DuetPrior prior, IReadOnlyList<AnalysisFrame> frames, double a4Hz)
    {
        double[] intervals = [.. frames.Where(frame => frame is { Played: not null, Sung: not null })
            .Select(frame => Cents.Between(frame.Played!.Value.FrequencyHz, frame.Sung!.Value.FrequencyHz))];
        (int flatTops, double firstFlatTop) = Analysis.Reports.FlatTops.Of(mono, sound.SampleRateHz);
        double[] beats = [.. frames.Where(frame => frame.BeatRateHz is not null).Select(frame => frame.BeatRateHz!.Value)];
        MeasuredTone? played = MeasuredTone.Of(mono, frames, VoiceRole.Played, prior.PlayedHz, a4Hz);
        MeasuredTone? sung = MeasuredTone.Of(mono, frames, VoiceRole.Sung, prior.SungHz, a4Hz);
        return new MeasureReport(
            file,
            sound.SampleRateHz,
            Math.Round(sound.Seconds, 4),
            frames.Count,
            Share(frames, Separability.Separable),
            Share(frames, Separability.NotSeparable),
            Share(frames, Separability.Silent),
            played,
            sung,
            MeasuredTone.IsTold(intervals.Length, frames) ? Math.Round(Median.Of(intervals), 2) : null,
            MeasuredTone.IsTold(beats.Length, frames) ? Math.Round(Median.Of(beats), 3) : null)
        {
            Leaves = Leaving(prior, played, sung),
            FlatTops = flatTops,
            FirstFlatTopSeconds = flatTops > 0 ? Math.Round(firstFlatTop, 3) : null,
            BothShare = Share(frames, frame => frame is { Played: not null, Sung: not null }),
            OneToneShare = Share(frames, frame => frame.Separability == Separability.OneTone),
            Pair = MeasuredPair.Of(mono, frames),
            RolesOpenShare = Share(frames, frame => frame.RolesOpen is not null),
            RolesOpen = OpenTones.Of(frames, a4Hz),
            OneSeriesShare = Share(frames, frame => frame.OneSeries is not null),
            OneSeries = OpenSeries.Of(frames, a4Hz),
        };
    }

    public const string PlayedName = "played";
    public const string SungName = "sung";

    // Half a semitone and a little: no drift of a tone that is held.
    private const double LeastSlideCents = 60;

    private static string[]? Leaving(DuetPrior prior, MeasuredTone? played, MeasuredTone? sung)
    {
        static bool Slides(MeasuredTone? tone, bool mayMove) => !mayMove && Math.Abs(tone?.DriftCents ?? 0) > LeastSlideCents;
        string[] leaving = [.. Slides(played, prior.PlayedMoves) ? [PlayedName] : Array.Empty<string>(), .. Slides(sung, prior.SungMoves) ? [SungName] : Array.Empty<string>()];
        return leaving.Length > 0 ? leaving : null;
    }

    public string ToText() => MeasureText.Of(this);

    private static double Share(IReadOnlyList<AnalysisFrame> frames, Separability separability) =>
        Share(frames, frame => frame.Separability == separability);

    private static double Share(IReadOnlyList<AnalysisFrame> frames, Func<AnalysisFrame, bool> isSo) =>
        frames.Count == 0 ? 0 : Math.Round((double)frames.Count(isSo) / frames.Count, 4);
}
