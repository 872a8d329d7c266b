using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Theory;

namespace BrassVox.Practice.Judging;

/// <summary>The level of P against S. Pure.</summary>
internal static class BalanceCriteria
{
    private const int FewestFrames = 10;

    public static Finding Balance(TakeTrack track, BalanceCriterion criterion)
    {
        double[] levels = [.. Levels(track).Select(stretch => stretch.PlayedOverSungDb).OfType<double>()];
        int asked = PathBuilder.Windows(track.Asked(VoiceRole.Played)!).Count;
        if (levels.Length < Math.Max(2, asked))
        {
            return Findings.NotTold(track.Step.Id, "balance", null, "dB", "Both tones could not be told in every stretch, so their balance is not told.");
        }

        double least = levels.Skip(1).Select((level, i) => level - levels[i]).Min();
        string heard = string.Join(", ", levels.Select(level => string.Create(CultureInfo.InvariantCulture, $"{level:+0;-0;0}")));
        return Findings.Plain(track.Step.Id, "balance", null, least >= criterion.GrowsByDb, Fault.Balance, least, criterion.GrowsByDb, "dB",
            string.Create(CultureInfo.InvariantCulture,
                $"The played tone lay {heard} dB over the sung one; asked to grow by {criterion.GrowsByDb:0.#} dB each time."));
    }

    /// <summary>Each unbroken stretch of P with the level of P over S in it; null where it cannot be told.</summary>
    public static IEnumerable<(Window Window, double? PlayedOverSungDb)> Levels(TakeTrack track)
    {
        foreach (Window window in PathBuilder.Windows(track.Asked(VoiceRole.Played)!))
        {
            double[] over = [.. Enumerable.Range(0, track.Frames.Count)
                .Where(i => track.Played[i].Seconds >= window.FromSeconds + TakeTrack.EdgeSeconds && track.Played[i].Seconds <= window.ToSeconds - TakeTrack.EdgeSeconds)
                .Where(i => track.Played[i].LevelDbfs is not null && track.Sung[i].LevelDbfs is not null)
                .Select(i => track.Played[i].LevelDbfs!.Value - track.Sung[i].LevelDbfs!.Value)];
            yield return (window, over.Length < FewestFrames ? null : Median.Of(over));
        }
    }
}
