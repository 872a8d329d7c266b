using BrassVox.Analysis;

namespace BrassVox.Practice.Judging;

/// <summary>Where the beats of a pair surely stay under a limit. Pure.</summary>
internal static class Stillness
{
    // A bound on the beat rate speaks of the last two seconds, see AnalysisFrame.BeatsBelowHz.
    private const double BoundCoversSeconds = 2.0;

    // Single frames without a rate do not break a stretch.
    private const double LongestUnknownSeconds = 0.3;

    // The bound comes in steps of the tracker's own; this much above the limit still counts as the limit.
    private const double BoundTolerance = 1.05;

    /// <summary>The limit of a step, in beats per second: one over Bb2, in proportion to P elsewhere, so that it is the same distance in cents.</summary>
    /// <param name="track">The step.</param>
    /// <param name="atBb2PerSecond">The limit over Bb2 in beats per second.</param>
    public static double LimitPerSecond(TakeTrack track, double atBb2PerSecond) => atBb2PerSecond * track.Pair.PlayedHz / PairCriteria.Bb2Hz;

    private enum State
    {
        Unknown,
        Still,
        Beating,
    }

    /// <summary>A stretch of stillness within a step.</summary>
    public readonly record struct Run(double FromSeconds, double LengthSeconds);

    /// <summary>The longest still stretch (of length 0 when the pair beat throughout); null when no rate could be told at all.</summary>
    public static Run? Longest(TakeTrack track, double limitPerSecond)
    {
        State[] states = States(track, limitPerSecond);
        if (states.All(state => state == State.Unknown))
        {
            return null;
        }

        var longest = new Run(0, 0);
        double? since = null;
        double last = 0;
        for (int i = 0; i < states.Length; i++)
        {
            double now = track.TimeOf(track.Frames[i]);
            if (states[i] == State.Beating || (since is not null && now - last > LongestUnknownSeconds))
            {
                since = null;
            }

            if (states[i] == State.Still)
            {
                since ??= now;
                last = now;
                double length = last - since.Value + track.HopSeconds;
                longest = length > longest.LengthSeconds ? new Run(since.Value, length) : longest;
            }
        }

        return longest;
    }

    /// <summary>Seconds in which the pair surely stayed under the limit, and seconds in which it surely did not.</summary>
    public static (double StillSeconds, double BeatingSeconds) Seconds(TakeTrack track, double limitPerSecond)
    {
        State[] states = States(track, limitPerSecond);
        return (states.Count(state => state == State.Still) * track.HopSeconds, states.Count(state => state == State.Beating) * track.HopSeconds);
    }

    /// <summary>Known beat rates in order of time; where the pair surely stayed under a limit and no rate was told, 0.</summary>
    public static (double Seconds, double Rate)[] Rates(TakeTrack track, double limitPerSecond)
    {
        State[] states = States(track, limitPerSecond);
        return [.. track.Frames.Zip(states).Where(pair => pair.Second != State.Unknown)
            .Select(pair => (track.TimeOf(pair.First), pair.First.BeatRateHz is { } rate && double.IsFinite(rate) ? rate : 0))];
    }

    private static State[] States(TakeTrack track, double limit)
    {
        var states = new State[track.Frames.Count];
        for (int i = 0; i < states.Length; i++)
        {
            AnalysisFrame frame = track.Frames[i];
            states[i] = frame.BeatRateHz is { } rate && double.IsFinite(rate)
                ? rate < limit ? State.Still : State.Beating
                : State.Unknown;
            if (frame.BeatsBelowHz is { } bound && bound <= BoundTolerance * limit)
            {
                double from = track.TimeOf(frame) - BoundCoversSeconds;
                for (int j = i; j >= 0 && track.TimeOf(track.Frames[j]) >= from && states[j] != State.Beating; j--)
                {
                    states[j] = State.Still;
                }
            }
        }

        return states;
    }
}
