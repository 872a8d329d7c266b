using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;

namespace BrassVox.App.Cli;

/// <summary>What <c>takes map</c> prints.</summary>
/// <param name="Player">The player's name.</param>
/// <param name="IsSimulated">True when any take was invented.</param>
/// <param name="Takes">Takes that count.</param>
/// <param name="NotScored">Takes that do not: drone bled into them, or nothing came in.</param>
/// <param name="OfPassages">Takes of passages, which are many pairs each and are not in the cells.</param>
/// <param name="NotJudged">Takes that could not be judged and are not in the cells.</param>
/// <param name="LeftOut">All that is in no cell, by reason.</param>
/// <param name="Registers">Registers that have takes, low to high.</param>
/// <param name="Cells">The cells, by interval, then register.</param>
/// <param name="Weeks">Weeks of the cells with most takes.</param>
/// <param name="Sureness">How often the player was right.</param>
/// <param name="SungTodaySeconds">Sung today, in seconds.</param>
/// <param name="SungWeekSeconds">Sung this week, in seconds.</param>
internal sealed record MapReport(
    string Player,
    bool IsSimulated,
    int Takes,
    int NotScored,
    int OfPassages,
    int NotJudged,
    IReadOnlyList<MapLeftOutReport> LeftOut,
    IReadOnlyList<string> Registers,
    IReadOnlyList<MapCellReport> Cells,
    IReadOnlyList<MapWeeksReport> Weeks,
    IReadOnlyList<MapSurenessReport> Sureness,
    double SungTodaySeconds,
    double SungWeekSeconds)
{
    private const int Trends = 3;

    public static MapReport Of(Player player, IReadOnlyList<LoggedTake> takes, VoiceLoad load, TimeZoneInfo zone)
    {
        ErrorMap map = ErrorMap.Of(takes);
        IReadOnlyList<LeftOut> leftOut = Practice.Log.LeftOut.Of(takes);
        return new MapReport(
            player.Name,
            takes.Any(take => take.Take.IsSimulated),
            takes.Count(take => take.IsMapped),
            takes.Count(take => !take.IsScored),
            ErrorMap.PassagesLeftOut(takes),
            leftOut.Where(some => some.IsNotJudged).Sum(some => some.Takes),
            [.. leftOut.Select(some => new MapLeftOutReport(some.Why.ToString().ToLowerInvariant(), some.Takes, some.Words, some.IsNotJudged))],
            [.. map.Registers.Select(register => register.Name(player.NoteNames))],
            [.. map.Cells.Select(cell => new MapCellReport(
                IntervalFamilies.Name(cell.Family), cell.Register.Name(player.NoteNames), cell.Takes, cell.Kind.ToString().ToLowerInvariant(), Math.Round(cell.Value, 1),
                cell.Kind == ErrorKind.Beats ? "/s" : "c")
            {
                OtherNoteTakes = cell.OtherNoteTakes,
                IsMostlyOtherNote = cell.IsMostlyOtherNote,
            })],
            [.. map.Cells.OrderByDescending(cell => cell.Takes).Take(Trends).Select(cell => WeekTrend.Of(cell, takes, zone)).Select(trend => new MapWeeksReport(
                IntervalFamilies.Name(trend.Cell.Family), trend.Cell.Register.Name(player.NoteNames), trend.Cell.Kind.ToString().ToLowerInvariant(),
                [.. trend.Weeks.Select(week => new MapWeekReport(week.Monday, week.Value is { } value ? Math.Round(value, 1) : null, week.Takes))]))],
            [.. SurenessFigure.Of(takes).Select(figure => new MapSurenessReport(figure.Sure.ToString().ToLowerInvariant(), figure.Right, figure.Said))],
            load.TodaySeconds,
            load.WeekSeconds);
    }
}

/// <summary>Takes that are in no cell for one reason.</summary>
internal sealed record MapLeftOutReport(string Why, int Takes, string Words, bool IsNotJudged);

/// <summary>One cell.</summary>
internal sealed record MapCellReport(string Interval, string Register, int Takes, string Worst, double Value, string Unit)
{
    /// <summary>In how many takes a tone was another note than asked, or in another octave.</summary>
    public int OtherNoteTakes { get; init; }

    /// <summary>True when that was half of them or more.</summary>
    public bool IsMostlyOtherNote { get; init; }
}

/// <summary>The weeks of a cell.</summary>
internal sealed record MapWeeksReport(string Interval, string Register, string Worst, IReadOnlyList<MapWeekReport> Weeks);

/// <summary>One week; null is rest.</summary>
internal sealed record MapWeekReport(DateOnly Monday, double? Value, int Takes);

/// <summary>How often a sentence was right.</summary>
internal sealed record MapSurenessReport(string Sure, int Right, int Said);
