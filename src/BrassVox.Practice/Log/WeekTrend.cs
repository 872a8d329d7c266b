using BrassVox.Practice.Judging;

namespace BrassVox.Practice.Log;

/// <summary>How one cell of the error map went from week to week, always in the respect in which it is worst overall. Pure.</summary>
/// <param name="Cell">The cell over all weeks.</param>
/// <param name="Weeks">Every week from the first take to the last, weeks of rest included.</param>
public sealed record WeekTrend(ErrorCell Cell, IReadOnlyList<WeekFigure> Weeks)
{
    private const int DaysOfWeek = 7;

    /// <summary>The trend of a cell.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="takes">Takes of any cell; the others are passed over.</param>
    /// <param name="zone">Where the player's days begin.</param>
    public static WeekTrend Of(ErrorCell cell, IEnumerable<LoggedTake> takes, TimeZoneInfo zone)
    {
        ILookup<DateOnly, double> byWeek = takes
            .Where(take => take.IsMapped && PlayedRegister.Of(take.Take.Played) == cell.Register && IntervalFamilies.Of(take.Take.Played, take.Take.Sung) == cell.Family)
            .Select(take => (Monday: MondayOf(take.Take.MadeAt, zone), Value: TakeError.Of(take.Take).Value(cell.Kind)))
            .Where(take => take.Value is not null)
            .ToLookup(take => take.Monday, take => take.Value!.Value);
        List<WeekFigure> weeks = [];
        if (byWeek.Count > 0)
        {
            for (DateOnly monday = byWeek.Min(week => week.Key); monday <= byWeek.Max(week => week.Key); monday = monday.AddDays(DaysOfWeek))
            {
                double[] values = [.. byWeek[monday]];
                weeks.Add(new WeekFigure(monday, values.Length == 0 ? null : Median.Of(values), values.Length));
            }
        }

        return new WeekTrend(cell, weeks);
    }

    /// <summary>The Monday of the week in which something was.</summary>
    /// <param name="at">When.</param>
    /// <param name="zone">Where the player's days begin.</param>
    public static DateOnly MondayOf(DateTimeOffset at, TimeZoneInfo zone) => MondayOf(DayOf(at, zone));

    /// <summary>The Monday of a day's week.</summary>
    /// <param name="day">The day.</param>
    public static DateOnly MondayOf(DateOnly day) => day.AddDays(-(((int)day.DayOfWeek + DaysOfWeek - 1) % DaysOfWeek));

    /// <summary>The player's day on which something was.</summary>
    /// <param name="at">When.</param>
    /// <param name="zone">Where the player's days begin.</param>
    public static DateOnly DayOf(DateTimeOffset at, TimeZoneInfo zone) => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(at, zone).DateTime);
}
