using BrassVox.Practice.Log;

namespace BrassVox.Practice.Planning;

/// <summary>What body notes and sung minutes say of today. Information, not medical advice; local rules and licensed practice go first. Pure.</summary>
/// <remarks>Our own thresholds, to be tried with players; no published source.</remarks>
internal static class BodyAdvice
{
    private const int Days = 4;
    private const int ThroatTimes = 2;
    private const int OtherTimes = 3;
    private const string Words = "Pain, scratch or lost high notes: stop. Hoarse for weeks: see a laryngologist.";

    /// <summary>The advice.</summary>
    /// <returns>What to say, or null; and whether lips and voice should rest today.</returns>
    public static (string? Text, bool ListenOnly) Of(IReadOnlyList<BodyNote> notes, VoiceLoad load, DateTimeOffset now, TimeZoneInfo zone)
    {
        DateOnly first = WeekTrend.DayOf(now, zone).AddDays(1 - Days);
        (BodyTag Tag, int Times) worst = notes
            .Where(note => note.At <= now && WeekTrend.DayOf(note.At, zone) >= first)
            .GroupBy(note => note.Tag)
            .Select(group => (group.Key, Times: group.Select(note => WeekTrend.DayOf(note.At, zone)).Distinct().Count()))
            .OrderByDescending(tag => tag.Key == BodyTag.Throat && tag.Times >= ThroatTimes).ThenByDescending(tag => tag.Times)
            .FirstOrDefault();
        bool throat = worst is { Tag: BodyTag.Throat, Times: >= ThroatTimes };
        if (throat || worst.Times >= OtherTimes)
        {
            return (FormattableString.Invariant($"{BodyTags.Name(worst.Tag)} on {worst.Times} of four days. Today is set to listening only. {Words}"), true);
        }

        return load.IsDayFull ? (FormattableString.Invariant($"{SungMinutes.Whole(load.TodaySeconds)} minutes sung today: the rest of it is listening."), true) : (null, false);
    }
}
