using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>The range around the unison, an octave or the twelfth in which one tone holds the other, from a glide of the voice through it.</summary>
/// <param name="PlayedHarmonic">Harmonic of the played tone that meets the voice.</param>
/// <param name="SungHarmonic">Harmonic of the sung tone that it meets.</param>
/// <param name="LowCents">Lower edge: the sung tone against the exact interval over the free played tone, in cents.</param>
/// <param name="HighCents">Upper edge, likewise.</param>
/// <param name="IsCaught">False when the beats go as those of two tones that do not hold one another; the edges then say where a zone, if any, would lie.</param>
/// <param name="Beats">Beats that were followed, both sides together.</param>
public readonly record struct CaptureZone(
    int PlayedHarmonic, int SungHarmonic, double LowCents, double HighCents, bool IsCaught, int Beats)
{
    /// <summary>Width from edge to edge in cents.</summary>
    public double WidthCents => HighCents - LowCents;

    private const int FewestFrames = 10;

    // Both tones are taken as straight lines within this distance of the meeting.
    private const double NearCents = 300.0;
    private const double NearSeconds = 8.0;

    private const int Rounds = 3;

    private static readonly (int Played, int Sung)[] Meetings = [(1, 1), (2, 1), (3, 1), (4, 1), (1, 2), (1, 3)];

    /// <summary>Reads the zone out of one glide of the voice.</summary>
    /// <param name="mono">The take's samples, full scale 1.</param>
    /// <param name="frames">Its frames, measured with the sung tone free to move.</param>
    /// <returns>The zone; null when the voice does not pass an octave, twelfth or the unison, when the frames on either side do not give both pitches, or when fewer than three beats stand out on a side. Pure, any thread.</returns>
    /// <remarks>
    /// Outside the zone the beats go as sqrt(d^2 - L^2), d the distance of the free tones, L half the zone: fitted to the moments
    /// at which the common line dips, on both sides. Source: R. Adler, A study of locking phenomena in oscillators, 1946 (from
    /// memory). It wants a glide that is straight near the meeting, slow enough for some beats on either side: 10 to 20 cents a second.
    /// </remarks>
    public static CaptureZone? Of(ReadOnlySpan<float> mono, IReadOnlyList<AnalysisFrame> frames)
    {
        ArgumentNullException.ThrowIfNull(frames);
        AnalysisFrame[] both = [.. frames.Where(x => x.Played is not null && x.Sung is not null)];
        foreach ((int k, int m) in Meetings)
        {
            double seconds = Crossing(both, k, m);
            AnalysisFrame[] near = [.. both.Where(x => Math.Abs(x.CentreSeconds - seconds) < NearSeconds && Math.Abs(Away(x, k, m)) < NearCents)];
            if (near.Count(x => x.CentreSeconds < seconds) >= FewestFrames && near.Count(x => x.CentreSeconds > seconds) >= FewestFrames)
            {
                return Fit(mono, near, frames[0].SampleRateHz, seconds, k, m);
            }
        }

        return null;
    }

    // The held tone is drawn along before it is caught, on either side the other way, which looks like a drift of its own. First no
    // drift is assumed; then what the law says of the drawing is taken out of its pitches, and what is left is drift.
    private static CaptureZone? Fit(ReadOnlySpan<float> mono, AnalysisFrame[] near, int rateHz, double seconds, int k, int m)
    {
        (double sungHz, double sungSlope) = Line(near, seconds, x => x.Sung!.Value.FrequencyHz);
        (double playedHz, double _) = Line(near, seconds, x => x.Played!.Value.FrequencyHz);
        var meeting = new GlideMeeting(seconds, k * playedHz, 0.0, m * sungHz, sungSlope, Math.Min(playedHz, sungHz));
        double[] dips = BeatDips.Of(mono, rateHz, meeting);
        LockFit? fit = LockFit.Of(dips, meeting);
        for (int round = 0; round < Rounds && fit is { } found; round++)
        {
            GlideMeeting before = meeting;
            (double freeHz, double slope) = Line(near, seconds, x => x.Played!.Value.FrequencyHz - (found.DrawnHz(before.DistanceAt(x.CentreSeconds)) / k));
            meeting = meeting with { PlayedHz = k * freeHz, PlayedSlope = slope };
            fit = LockFit.Of(dips, meeting);
        }

        double Cent(double hz) => 1200.0 * Math.Log2(1.0 + (hz / meeting.PlayedHz));
        return fit is { } zone
            ? new CaptureZone(k, m, Cent(zone.CentreHz - zone.HalfHz), Cent(zone.CentreHz + zone.HalfHz), zone.IsCaught, dips.Length)
            : null;
    }

    // When the interval passes the exact one, between the last frame on one side and the first on the other; no number where it never does.
    private static double Crossing(AnalysisFrame[] both, int k, int m)
    {
        for (int i = 1; i < both.Length; i++)
        {
            double before = Away(both[i - 1], k, m);
            double after = Away(both[i], k, m);
            if (before * after < 0.0 && Math.Max(Math.Abs(before), Math.Abs(after)) < NearCents)
            {
                double share = before / (before - after);
                return both[i - 1].CentreSeconds + (share * (both[i].CentreSeconds - both[i - 1].CentreSeconds));
            }
        }

        return double.NaN;
    }

    private static double Away(AnalysisFrame frame, int k, int m) =>
        Cents.Between(k * frame.Played!.Value.FrequencyHz, m * frame.Sung!.Value.FrequencyHz);

    // Pitch at a time and its slope in cents a second: least squares with both sides weighing alike, so that the pull on either side cancels.
    private static (double Hz, double Slope) Line(AnalysisFrame[] frames, double seconds, Func<AnalysisFrame, double> hz)
    {
        double after = frames.Count(x => x.CentreSeconds > seconds);
        double before = frames.Length - after;
        double w = 0, t = 0, y = 0, tt = 0, ty = 0;
        foreach (AnalysisFrame frame in frames)
        {
            double x = frame.CentreSeconds - seconds;
            double weight = x > 0.0 ? 1.0 / after : 1.0 / before;
            double value = Cents.Between(hz(frames[0]), hz(frame));
            w += weight;
            t += weight * x;
            y += weight * value;
            tt += weight * x * x;
            ty += weight * x * value;
        }

        double slope = ((w * ty) - (t * y)) / ((w * tt) - (t * t));
        return (Cents.Above(hz(frames[0]), (y - (slope * t)) / w), slope);
    }
}
