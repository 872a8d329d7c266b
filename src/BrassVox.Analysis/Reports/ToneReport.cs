using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>What one tone of a take did, its first and last 150 ms left out: where it lay, how it moved, how loud it was.</summary>
/// <param name="CentreHz">Centre pitch in Hz, vibrato and drift taken out; of a still pair that beats slowly, by windows that resolve the beats.</param>
/// <param name="OffsetCents">Centre against the target in cents; null without a target.</param>
/// <param name="DriftCents">Straight-line change from beginning to end in cents.</param>
/// <param name="SpreadCents">Standard deviation of what drift and vibrato leave, in cents.</param>
/// <param name="Vibrato">Vibrato, or null when no regular swing stands out.</param>
/// <param name="OnsetSeconds">When the tone began, on the take's clock: where it passed half its later amplitude.</param>
/// <param name="LevelDbfs">Median level; a sine of amplitude 1 reads 0.</param>
/// <param name="MeasuredSeconds">How much of the tone was measured, in seconds.</param>
public sealed record ToneReport(
    double CentreHz,
    double? OffsetCents,
    double DriftCents,
    double SpreadCents,
    Vibrato? Vibrato,
    double OnsetSeconds,
    double LevelDbfs,
    double MeasuredSeconds)
{
    /// <summary>Left out at either end: a note's beginning and end are transient for about 120 ms.</summary>
    /// <remarks>Source: JOB 2, singers' notes (study cited there); 150 ms is common practice.</remarks>
    public const double EndsSeconds = 0.15;

    private const int FewestFrames = 10;

    // Frames this many times further off the curve than half of them are strays (four standard deviations), but never within 40 cents.
    private const double StraySpreads = 6.0;
    private const double LeastStrayCents = 40.0;
    private const int StrayRounds = 4;

    // A step from one frame to the next that lies this near to whole octaves is no step of a player: the reading has gone to another octave.
    private const double OctaveStepCents = 80.0;

    // A tone that begins is told within two windows of 160 ms, the last of which that do not tell it yet hold a part of it.
    private const double BeginningSeconds = 0.32;

    /// <summary>False when the tone may have sounded before <see cref="OnsetSeconds"/>: it is there in the first frame, or the frames before left open what sounds.</summary>
    public bool IsOnsetHeard { get; init; }

    /// <summary>The other octave in which the tone was read most often beside the one that is told: 1 for the octave above, -1 for that below, 0 for none.</summary>
    public int OtherOctave { get; init; }

    /// <summary>Share of the tone's frames, 0 to 1, that were read in another octave than the one that is told; they are left out of all figures but the level.</summary>
    public double OtherOctaveShare { get; init; }

    /// <summary>Reads one tone out of frames.</summary>
    /// <param name="mono">The take's samples, full scale 1; the width of a vibrato and the pitches of a slowly beating still pair are read from them.</param>
    /// <param name="frames">Its frames in order of time, from <see cref="TakeMeasurement.Frames"/>.</param>
    /// <param name="role">Which tone.</param>
    /// <param name="targetHz">What was asked, in Hz, or null.</param>
    /// <returns>The report; null when fewer than ten frames hold the tone between its ends. Pure, any thread.</returns>
    public static ToneReport? Of(ReadOnlySpan<float> mono, IReadOnlyList<AnalysisFrame> frames, VoiceRole role, double? targetHz = null)
    {
        ArgumentNullException.ThrowIfNull(frames);
        List<(double Seconds, PitchEstimate Tone)> heard = [.. frames
            .Select(frame => (frame.CentreSeconds, Tone: role == VoiceRole.Played ? frame.Played : frame.Sung))
            .Where(x => x.Tone is not null)
            .Select(x => (x.CentreSeconds, x.Tone!.Value))];
        if (heard.Count < FewestFrames)
        {
            return null;
        }

        double level = Median([.. heard.Select(x => x.Tone.LevelDbfs)]);
        double onset = Onset(heard, level);
        double from = onset + EndsSeconds;
        double to = heard[^1].Seconds - EndsSeconds;
        var kept = heard.Where(x => x.Seconds >= from && x.Seconds <= to).ToList();
        if (kept.Count < FewestFrames)
        {
            return null;
        }

        int[] octaves = Octaves([.. kept.Select(x => x.Tone.FrequencyHz)]);
        int[] byCount = [.. octaves.CountBy(x => x).OrderByDescending(x => x.Value).Select(x => x.Key)];
        double otherShare = (double)octaves.Count(x => x != byCount[0]) / octaves.Length;
        kept = [.. kept.Where((_, i) => octaves[i] == byCount[0])];
        if (kept.Count < FewestFrames)
        {
            return null;
        }

        double referenceHz = targetHz ?? kept[0].Tone.FrequencyHz;
        double[] seconds = [.. kept.Select(x => x.Seconds)];
        double[] cents = [.. kept.Select(x => Cents.Between(referenceHz, x.Tone.FrequencyHz))];
        PitchCurve curve = PitchCurve.Fit(seconds, cents);
        for (int round = 0; round < StrayRounds; round++)
        {
            double[] off = [.. seconds.Zip(cents, (t, c) => Math.Abs(c - curve.CentsAt(t, 1.0)))];
            double most = Math.Max(LeastStrayCents, StraySpreads * Median([.. off]));
            int[] near = [.. Enumerable.Range(0, off.Length).Where(i => off[i] <= most)];
            if (near.Length == off.Length || near.Length < FewestFrames)
            {
                break;
            }

            (seconds, cents) = ([.. near.Select(i => seconds[i])], [.. near.Select(i => cents[i])]);
            curve = PitchCurve.Fit(seconds, cents);
        }

        Vibrato? vibrato = null;
        if (curve.RateHz > 0.0)
        {
            double[] other = [.. frames.Select(x => role == VoiceRole.Played ? x.Sung : x.Played).OfType<PitchEstimate>().Select(x => x.FrequencyHz)];
            double? otherHz = other.Length == 0 ? null : Median(other);
            SwingWindow[] held = [.. frames.Where(x => x.CentreSeconds >= from && x.CentreSeconds <= to).Select(x => new SwingWindow(x, x.CentreSeconds, referenceHz, otherHz))];
            vibrato = new Vibrato(curve.RateHz, curve.ShownCents * SwingWidth.Scale(mono, held, curve));
        }

        double centreCents = vibrato is null
            && StillPair.Of(mono, [.. frames.Where(x => x.CentreSeconds >= from && x.CentreSeconds <= to)]) is { } still
            ? Cents.Between(referenceHz, role == VoiceRole.Played ? still.PlayedHz : still.SungHz)
            : curve.CentreCents;
        double hop = frames.Count > 1 ? frames[1].CentreSeconds - frames[0].CentreSeconds : 0.0;
        return new ToneReport(
            Cents.Above(referenceHz, centreCents),
            targetHz is null ? null : centreCents,
            curve.SlopeCentsPerSecond * (seconds[^1] - seconds[0]),
            curve.SpreadCents,
            vibrato,
            onset,
            level,
            seconds.Length * hop)
        {
            IsOnsetHeard = onset > heard[0].Seconds || IsMissingBefore(frames, role, heard[0].Seconds),
            OtherOctave = byCount.Length > 1 ? byCount[1] - byCount[0] : 0,
            OtherOctaveShare = otherShare,
        };
    }

    // The octave each frame lies in, counted from the first by steps between neighbours, over one stray between them: a glide through an octave
    // stays in its own.
    private static int[] Octaves(double[] hz)
    {
        int[] octaves = new int[hz.Length];
        for (int i = 1; i < hz.Length; i++)
        {
            int before = i > 1 && WholeOctaves(hz[i - 2], hz[i - 1]) is null && WholeOctaves(hz[i - 2], hz[i]) is not null ? i - 2 : i - 1;
            octaves[i] = octaves[before] + (WholeOctaves(hz[before], hz[i]) ?? 0);
        }

        return octaves;
    }

    // Null where the step is no whole number of octaves; 0 within one.
    private static int? WholeOctaves(double fromHz, double toHz)
    {
        double step = Cents.Between(fromHz, toHz);
        double whole = Math.Round(step / Cents.PerOctave);
        return Math.Abs(step - (whole * Cents.PerOctave)) < OctaveStepCents ? (int)whole : null;
    }

    // Some frame just before gives nothing at all, or the other tone alone; in fog this one may sound.
    private static bool IsMissingBefore(IReadOnlyList<AnalysisFrame> frames, VoiceRole role, double seconds) =>
        frames.Any(x => x.CentreSeconds < seconds && x.CentreSeconds >= seconds - BeginningSeconds
            && (x.Separability == Separability.Silent || (x.Separability != Separability.NotSeparable && (role == VoiceRole.Played ? x.Sung : x.Played) is not null)));

    // In the Hann window whose middle lies on the onset half of the tone is heard: 6 dB under its later level.
    private static double Onset(List<(double Seconds, PitchEstimate Tone)> heard, double levelDbfs)
    {
        double half = levelDbfs - 6.02;
        for (int i = 0; i < heard.Count; i++)
        {
            if (heard[i].Tone.LevelDbfs < half)
            {
                continue;
            }

            if (i == 0)
            {
                return heard[0].Seconds;
            }

            double before = heard[i - 1].Tone.LevelDbfs;
            double share = (half - before) / (heard[i].Tone.LevelDbfs - before);
            return heard[i - 1].Seconds + (share * (heard[i].Seconds - heard[i - 1].Seconds));
        }

        return heard[0].Seconds;
    }

    internal static double Median(double[] values)
    {
        Array.Sort(values);
        return values.Length == 0 ? double.NaN : 0.5 * (values[(values.Length - 1) / 2] + values[values.Length / 2]);
    }
}
