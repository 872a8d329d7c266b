using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>Lays the frames of a take along the moments of its score. Pure.</summary>
/// <remarks>
/// Dynamic time warping with a declared clock: the cheapest way through the moments in order, where a frame costs what its pitches lie off
/// and, less, how far the moment lies from its declared time. Source of the method: H. Sakoe and S. Chiba 1978, "Dynamic programming algorithm
/// optimization for spoken word recognition", IEEE Trans. ASSP 26 [memory]. The weights are ours.
/// </remarks>
internal static class ScoreAlignment
{
    private const double FarCents = 400;
    private const double UnheardCost = 0.8;
    private const double UnaskedCost = 0.5;
    private const double UnwantedFogCost = 0.5;
    private const double WantedFogCost = 0.05;
    private const double CostPerSecondAway = 0.6;
    private const double SkipCost = 4;
    private const double ReachSeconds = 2.5;

    /// <summary>A stretch of a step in which nothing changes.</summary>
    /// <param name="FromSeconds">Its beginning in the step.</param>
    /// <param name="ToSeconds">Its end.</param>
    /// <param name="PlayedHz">P asked for; null for silence.</param>
    /// <param name="SungHz">S asked for; null for silence.</param>
    public readonly record struct Moment(double FromSeconds, double ToSeconds, double? PlayedHz, double? SungHz)
    {
        public bool IsSilent => PlayedHz is null && SungHz is null;
    }

    /// <summary>The moments of a step, silent ones included.</summary>
    public static IReadOnlyList<Moment> Moments(AskedPart? played, AskedPart? sung, double stepSeconds)
    {
        double[] cuts = [.. new[] { played, sung }.OfType<AskedPart>()
            .SelectMany(part => part.Segments)
            .SelectMany(segment => new[] { segment.FromSeconds, segment.ToSeconds })
            .Append(0).Append(stepSeconds)
            .Order()];
        List<Moment> moments = [];
        for (int i = 1; i < cuts.Length; i++)
        {
            if (cuts[i] - cuts[i - 1] > 1e-6)
            {
                double middle = 0.5 * (cuts[i] + cuts[i - 1]);
                moments.Add(new Moment(cuts[i - 1], cuts[i], HzAt(played, middle), HzAt(sung, middle)));
            }
        }

        return moments;
    }

    /// <summary>For each frame the index of its moment; -1 before the first and the count of moments after the last.</summary>
    public static int[] Align(IReadOnlyList<AnalysisFrame> frames, IReadOnlyList<Moment> moments, double stepStartSeconds)
    {
        int states = moments.Count + 2;
        Moment[] all =
        [
            new Moment(double.NegativeInfinity, moments[0].FromSeconds, null, null),
            .. moments,
            new Moment(moments[^1].ToSeconds, double.PositiveInfinity, null, null),
        ];
        double[] cost = new double[states];
        double[] next = new double[states];
        byte[,] steps = new byte[frames.Count, states];
        Array.Fill(cost, double.PositiveInfinity);
        cost[0] = 0;
        cost[1] = 0;
        for (int i = 0; i < frames.Count; i++)
        {
            double seconds = frames[i].CentreSeconds - stepStartSeconds;
            for (int j = 0; j < states; j++)
            {
                double away = Math.Max(0, Math.Max(all[j].FromSeconds - seconds, seconds - all[j].ToSeconds));
                (double best, byte step) = (cost[j], 0);
                if (j > 0 && cost[j - 1] < best)
                {
                    (best, step) = (cost[j - 1], 1);
                }

                if (j > 1 && cost[j - 2] + SkipCost < best)
                {
                    (best, step) = (cost[j - 2] + SkipCost, 2);
                }

                next[j] = away > ReachSeconds ? double.PositiveInfinity : best + CostOf(frames[i], all[j]) + (CostPerSecondAway * away);
                steps[i, j] = step;
            }

            // Where no moment is in reach, the declared clock leads.
            if (Array.TrueForAll(next, double.IsPositiveInfinity))
            {
                Array.Copy(cost, next, states);
            }

            (cost, next) = (next, cost);
        }

        int[] path = new int[frames.Count];
        int at = Array.IndexOf(cost, cost.Min());
        for (int i = frames.Count - 1; i >= 0; i--)
        {
            path[i] = at - 1;
            at -= steps[i, at];
        }

        return path;
    }

    private static double? HzAt(AskedPart? part, double seconds) => part?.IsAskedAt(seconds) == true ? part.Path.FrequencyHz(seconds) : null;

    private static double CostOf(AnalysisFrame frame, Moment moment)
    {
        if (frame.Separability == Separability.NotSeparable)
        {
            return moment.IsSilent || moment.PlayedHz is null || moment.SungHz is null ? 1 : IsFog(moment) ? WantedFogCost : UnwantedFogCost;
        }

        // A tone that stands on a line of the other may read as one tone.
        if (IsFog(moment) && (frame.Played is null || frame.Sung is null) && (frame.Played is not null || frame.Sung is not null))
        {
            return frame.Played is { } played ? CostOf(played, moment.PlayedHz) : CostOf(frame.Sung, moment.SungHz);
        }

        return CostOf(frame.Played, moment.PlayedHz) + CostOf(frame.Sung, moment.SungHz);
    }

    private static double CostOf(PitchEstimate? heard, double? askedHz) => (heard, askedHz) switch
    {
        (null, null) => 0,
        (null, _) => UnheardCost,
        (_, null) => UnaskedCost,
        ({ } tone, { } hz) => Math.Min(Math.Abs(Cents.Between(hz, tone.FrequencyHz)), FarCents) / FarCents,
    };

    /// <summary>True when the two asked tones cannot be told apart by their lines in a window of 160 ms.</summary>
    public static bool IsFog(Moment moment) =>
        moment is { PlayedHz: { } played, SungHz: { } sung } && PairCriteria.IsFog(played, sung);
}
