using System.Globalization;
using System.Text;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>Takes and the error map as text.</summary>
internal static class TakesText
{
    private const int ColumnWidth = 16;

    public static string List(IReadOnlyList<LoggedTake> takes, IReadOnlyList<BodyNote> between, Player player)
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{Whose(player)}   {Count(takes.Count, "take")}{(takes.Any(take => take.Take.IsSimulated) ? "   SIMULATED" : "")}");
        if (takes.Count == 0)
        {
            text.AppendLine("none kept yet; exercise run and Play along keep them");
            if (between.Count == 0)
            {
                return text.ToString();
            }
        }

        text.AppendLine().AppendLine("  id                                              pair         P       S       beats   body");
        (DateTimeOffset At, string Line)[] lines =
        [
            .. takes.Select(take => (take.Take.MadeAt, Line(take, player))),
            .. between.Select(note => (note.At, string.Create(CultureInfo.InvariantCulture, $"  {note.Id,-46}  {"between takes",-35}  {BodyTags.Name(note.Tag)}"))),
        ];
        foreach ((DateTimeOffset _, string line) in lines.OrderBy(line => line.At))
        {
            text.AppendLine(line);
        }

        return text.AppendLine().AppendLine("o offset, w wander, d drift, in cents; beats a second").ToString();
    }

    private static string Line(LoggedTake logged, Player player)
    {
        TakeRecord take = logged.Take;
        string pair = $"{NoteNames.Of(take.Played, player.NoteNames)} + {NoteNames.Of(take.Sung, player.NoteNames)}";
        string figures = logged switch
        {
            { WhyNotScored: { } why } => $"not scored: {why}",
            { WhyNotJudged: { } why } => $"not judged: {why}",
            _ => string.Create(CultureInfo.InvariantCulture, $"{Tone(take.Result.Played),-6}  {Tone(take.Result.Sung),-6}  {Beats(take.Result.Pair),-6}"),
        };
        return string.Create(CultureInfo.InvariantCulture, $"  {take.Id,-46}  {pair,-11}  {figures,-22}  {string.Join(", ", logged.Body.Select(BodyTags.Name))}").TrimEnd();
    }

    public static string Map(MapReport map, Player player)
    {
        var text = new StringBuilder();
        string notScored = map.NotScored == 0 ? "" : FormattableString.Invariant($", {map.NotScored} more not scored: drone bleeds in, or nothing came in");
        string ofPassages = map.OfPassages == 0 ? "" : FormattableString.Invariant($", {map.OfPassages} more of passages, many pairs each, not in the map");
        text.AppendLine(CultureInfo.InvariantCulture, $"{Whose(player)}   {Count(map.Takes, "take")}{notScored}{ofPassages}{(map.IsSimulated ? "   SIMULATED" : "")}");
        foreach (MapLeftOutReport some in map.LeftOut.Where(some => some.Why == "nofigure"))
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"of these, {some.Words}");
        }

        if (map.NotJudged > 0)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"{Count(map.NotJudged, "more take")} could not be judged, neither for nor against you:");
            foreach (MapLeftOutReport some in map.LeftOut.Where(some => some.IsNotJudged))
            {
                text.AppendLine(CultureInfo.InvariantCulture, $"  {some.Words}");
            }
        }

        if (map.Cells.Count == 0)
        {
            text.AppendLine("nothing to tell yet; exercise run and Play along keep takes");
        }
        else
        {
            IReadOnlyList<string> registers = map.Registers;
            text.AppendLine().AppendLine("WHERE IT FAILS   median take: o offset, w wander, d drift in cents; (n) takes");
            if (map.Cells.Any(cell => cell.IsMostlyOtherNote))
            {
                text.AppendLine("                 note: mostly on another note than asked, or in another octave");
            }

            text.AppendLine("  played      " + string.Concat(registers.Select(register => register.PadRight(ColumnWidth))).TrimEnd());
            foreach (IGrouping<string, MapCellReport> family in map.Cells.GroupBy(cell => cell.Interval))
            {
                text.Append("  ").Append(family.Key.PadRight(12)).AppendLine(string.Concat(registers.Select(register =>
                    (family.FirstOrDefault(cell => cell.Register == register) is { } cell ? Figure(cell) : "-").PadRight(ColumnWidth))).TrimEnd());
            }

            text.AppendLine().AppendLine("WEEKS");
            foreach (MapWeeksReport weeks in map.Weeks)
            {
                string letter = weeks.Worst == "beats" ? " /s" : $" {weeks.Worst[0]}";
                text.Append("  ").Append(weeks.Interval).Append(", ").Append(weeks.Register).Append("   ").AppendLine(string.Join("   ", weeks.Weeks.Select(week =>
                    week.Value is { } value ? string.Create(CultureInfo.InvariantCulture, $"{(weeks.Worst == "beats" ? value : Math.Round(value)):0.#}{letter}") : "rest")));
            }
        }

        foreach (MapSurenessReport sure in map.Sureness)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"SURE   last {sure.Said} \"{(sure.Sure == "fairlysure" ? "fairly sure" : sure.Sure)}\": {sure.Right} right");
        }

        return text.AppendLine(CultureInfo.InvariantCulture, $"VOICE  sung {SungMinutes.Tenths(map.SungTodaySeconds):0.0} min today, {SungMinutes.Tenths(map.SungWeekSeconds):0.0} this week").ToString();
    }

    /// <summary>Whose data it is.</summary>
    public static string Whose(Player player) => string.Create(
        CultureInfo.InvariantCulture,
        $"{(player.Name.Length > 0 ? player.Name + ": " : "")}{player.Profile.Instrument.ToString().ToLowerInvariant()}, {player.Profile.Voice.ToString().ToLowerInvariant()} voice, A4 {player.Profile.A4Hz:0.##}");

    /// <summary>The figure that stands out with its letter.</summary>
    public static string Tone(JudgedTone? report)
    {
        if (report?.OffsetCents is not { } offset)
        {
            return "-";
        }

        double wander = report.SpreadCents ?? 0;
        double drift = report.DriftCents ?? 0;
        return Math.Abs(drift) > Math.Max(Math.Abs(offset), wander) ? string.Create(CultureInfo.InvariantCulture, $"{drift:+0;-0;0} d")
            : wander > Math.Abs(offset) ? string.Create(CultureInfo.InvariantCulture, $"{wander:0} w")
            : string.Create(CultureInfo.InvariantCulture, $"{offset:+0;-0;0} o");
    }

    private static string Beats(JudgedPair pair) => pair.MedianBeatsPerSecond is { } rate ? string.Create(CultureInfo.InvariantCulture, $"{rate:0.0}/s") : "-";

    private static string Figure(MapCellReport cell) => cell.IsMostlyOtherNote
        ? string.Create(CultureInfo.InvariantCulture, $"note ({cell.OtherNoteTakes})")
        : cell.Unit == "/s"
        ? string.Create(CultureInfo.InvariantCulture, $"{cell.Value:0.0} /s ({cell.Takes})")
        : string.Create(CultureInfo.InvariantCulture, $"{cell.Value:0} {cell.Worst[0]} ({cell.Takes})");

    private static string Count(int count, string what) => string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
