using BrassVox.Theory;

namespace BrassVox.Analysis.Reports;

/// <summary>How far one tone is drawn along when the other moves.</summary>
/// <param name="CentsPerSemitone">Cents that the held tone shifts for each 100 cents the other moves; positive when it follows.</param>
/// <param name="MovedCents">How far the moving tone went, 5th to 95th percentile, in cents.</param>
/// <param name="Frames">Frames that held both tones.</param>
public readonly record struct Pull(double CentsPerSemitone, double MovedCents, int Frames)
{
    // Less movement than this cannot be told from two voices' common wander.
    private const double LeastMovedCents = 30.0;
    private const int FewestFrames = 20;

    /// <summary>Pull on one tone while the other moves.</summary>
    /// <param name="frames">Frames of one glide or bend, in order of time.</param>
    /// <param name="moving">The tone that moves.</param>
    /// <returns>The pull; null when fewer than 20 frames hold both tones or the moving tone went less than 30 cents. Pure, any thread.</returns>
    /// <remarks>Least squares of the held tone on the moving one with a straight drift taken out of both: what goes with time alone is no pull.</remarks>
    public static Pull? Of(IReadOnlyList<AnalysisFrame> frames, VoiceRole moving)
    {
        ArgumentNullException.ThrowIfNull(frames);
        AnalysisFrame[] both = [.. frames.Where(x => x.Played is not null && x.Sung is not null)];
        if (both.Length < FewestFrames)
        {
            return null;
        }

        double[] moved = Track(both, moving);
        double[] held = Track(both, moving == VoiceRole.Played ? VoiceRole.Sung : VoiceRole.Played);
        double[] sorted = [.. moved.Order()];
        double went = sorted[(int)(0.95 * (sorted.Length - 1))] - sorted[(int)(0.05 * (sorted.Length - 1))];
        if (went < LeastMovedCents)
        {
            return null;
        }

        double[] seconds = [.. both.Select(x => x.CentreSeconds)];
        double[] movedRest = WithoutDrift(seconds, moved);
        double[] heldRest = WithoutDrift(seconds, held);
        bool bends = Dot(movedRest, movedRest) > 0.1 * Dot(Centred(moved), Centred(moved));

        // A straight glide is all drift: then the two lines themselves are compared.
        double[] a = bends ? movedRest : Centred(moved);
        double[] b = bends ? heldRest : Centred(held);
        return new Pull(100.0 * Dot(a, b) / Dot(a, a), went, both.Length);
    }

    private static double[] Track(AnalysisFrame[] frames, VoiceRole role)
    {
        double[] hz = [.. frames.Select(x => (role == VoiceRole.Played ? x.Played : x.Sung)!.Value.FrequencyHz)];
        return [.. hz.Select(x => Cents.Between(hz[0], x))];
    }

    private static double[] WithoutDrift(double[] seconds, double[] cents)
    {
        double[] t = Centred(seconds);
        double[] y = Centred(cents);
        double slope = Dot(t, y) / (Dot(t, t) + 1e-12);
        return [.. y.Select((v, i) => v - (slope * t[i]))];
    }

    private static double[] Centred(double[] values)
    {
        double mean = values.Average();
        return [.. values.Select(x => x - mean)];
    }

    private static double Dot(double[] a, double[] b) => a.Zip(b, (x, y) => x * y).Sum();
}
