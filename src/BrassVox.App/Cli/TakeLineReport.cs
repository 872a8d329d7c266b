using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Takes;

namespace BrassVox.App.Cli;

/// <summary>A take as <c>takes list --json</c> prints it; a body note that belongs to no take has no exercise, notes and figures.</summary>
internal sealed record TakeLineReport(
    string Id,
    DateTimeOffset MadeAt,
    string Player,
    bool IsSimulated,
    string? ExerciseId,
    string? Played,
    string? Sung,
    bool IsScored,
    bool? AsAsked,
    string? WhyNotJudged,
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
            take.Id, take.MadeAt, take.PlayerName ?? "", take.IsSimulated, take.ExerciseId, take.Played.ToString(), take.Sung.ToString(), logged.IsScored, take.Result.AsAsked, logged.WhyNotJudged,
            p?.OffsetCents, p?.SpreadCents, p?.DriftCents, s?.OffsetCents, s?.SpreadCents, s?.DriftCents,
            take.Result.Pair.MedianBeatsPerSecond, s?.HeardSeconds ?? 0, [.. logged.Body.Select(BodyTags.Name)]);
    }

    public static TakeLineReport Of(BodyNote note) => new(
        note.Id, note.At, note.Player, note.IsSimulated, null, null, null, false, null, null, null, null, null, null, null, null, null, 0, [BodyTags.Name(note.Tag)]);
}
