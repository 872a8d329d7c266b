using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary>A take as <c>takes list --json</c> prints it.</summary>
internal sealed record TakeLineReport(
    string Id,
    DateTimeOffset MadeAt,
    string Player,
    bool IsSimulated,
    string ExerciseId,
    string Played,
    string Sung,
    bool IsScored,
    bool? AsAsked,
    double? PlayedOffsetCents,
    double? PlayedSpreadCents,
    double? PlayedDriftCents,
    double? SungOffsetCents,
    double? SungSpreadCents,
    double? SungDriftCents,
    double? BeatsPerSecond,
    double SungSeconds,
    IReadOnlyList<string> Body)
{
    public static TakeLineReport Of(LoggedTake logged)
    {
        TakeRecord take = logged.Take;
        JudgedTone? p = take.Result.Played;
        JudgedTone? s = take.Result.Sung;
        return new TakeLineReport(
            take.Id, take.MadeAt, take.PlayerName ?? "", take.IsSimulated, take.ExerciseId, take.Played.ToString(), take.Sung.ToString(), logged.IsScored, take.Result.AsAsked,
            p?.OffsetCents, p?.SpreadCents, p?.DriftCents, s?.OffsetCents, s?.SpreadCents, s?.DriftCents,
            take.Result.Pair.MedianBeatsPerSecond, s?.HeardSeconds ?? 0, [.. logged.Body.Select(BodyTags.Name)]);
    }
}
