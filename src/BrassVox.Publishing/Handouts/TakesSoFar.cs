using System.Globalization;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>What a player's log holds so far, as part of their handout: the error map, its course over the takes, the last takes.</summary>
/// <param name="Takes">The player's takes, oldest first; may be none.</param>
/// <param name="Zone">Where the player lives, for dates.</param>
public sealed record TakesSoFar(IReadOnlyList<LoggedTake> Takes, TimeZoneInfo Zone)
{
    private const int LastTakes = 6;
    private const int MostCourses = 6;
    private const int FewestForCourse = 3;

    // The picture, in its own units.
    private const double Left = 46, Right = 352, Top = 28, Bottom = 128, Width = 360, Height = 152;

    /// <summary>True when there is something to show.</summary>
    public bool HasTakes => Takes.Count > 0;

    /// <summary>Appends the section.</summary>
    internal void Append(TextWriter page, Player player)
    {
        var map = ErrorMap.Of(Takes);
        int left = Takes.Count(take => !take.IsScored);
        int passages = ErrorMap.PassagesLeftOut(Takes);
        string counted = string.Create(CultureInfo.InvariantCulture, $"{Takes.Count} {(Takes.Count == 1 ? "take" : "takes")} {(Day(Takes[0]) == Day(Takes[^1]) ? $"of {Day(Takes[0])}" : $"from {Day(Takes[0])} to {Day(Takes[^1])}")}");
        string notCounted = left == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"; {left} not counted: the drone bled in, or nothing came in");
        notCounted += passages == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"; {passages} of passages, which are many pairs each, {(passages == 1 ? "is" : "are")} not in the table");
        page.Write("<section aria-labelledby=\"takes\">\n<h2 id=\"takes\">Your takes so far</h2>\n");
        string notJudged = LeftOut.NotJudgedWords(LeftOut.Of(Takes));
        page.Write($"<p>{Words($"{counted + notCounted}. {notJudged}".TrimEnd())} Compare yourself with yourself only.</p>\n");
        if (Takes.Any(take => take.Take.IsSimulated))
        {
            page.Write("<p><strong>These takes are simulated.</strong></p>\n");
        }

        if (map.Cells.Count > 0)
        {
            Map(page, player, map);
            Courses(page, player);
        }

        Last(page, player);
        page.Write("</section>\n");
    }

    private void Map(TextWriter page, Player player, ErrorMap map)
    {
        page.Write("<table>\n<caption>What fails most by interval and by where P lies: the median of all takes and how many there were; then the same figure in the last week it was taken (c: cents)</caption>\n<thead><tr><th scope=\"col\">Interval</th>");
        foreach (PlayedRegister register in map.Registers)
        {
            page.Write($"<th scope=\"col\">P {Words(register.Name(player.NoteNames))}</th>");
        }

        page.Write("</tr></thead>\n<tbody>\n");
        foreach (IntervalFamily family in map.Families)
        {
            page.Write($"<tr><th scope=\"row\">{Words(IntervalFamilies.Name(family))}</th>");
            foreach (PlayedRegister register in map.Registers)
            {
                page.Write(map.Find(family, register) is { } cell
                    ? string.Create(CultureInfo.InvariantCulture, $"<td>{Words(Fault(cell))}<br><small>{cell.Takes} {(cell.Takes == 1 ? "take" : "takes")}{LastWeek(cell)}</small></td>")
                    : "<td>no take</td>");
            }

            page.Write("</tr>\n");
        }

        page.Write("</tbody>\n</table>\n");
    }

    private string LastWeek(ErrorCell cell)
    {
        WeekFigure[] weeks = [.. WeekTrend.Of(cell, Takes, Zone).Weeks.Where(week => week.Value is not null)];
        return weeks.Length < 2 ? "" : string.Create(CultureInfo.InvariantCulture, $"; last week {(cell.Kind == ErrorKind.Beats ? $"{weeks[^1].Value:0.0}/s" : $"{weeks[^1].Value:0} c")}");
    }

    private static string Fault(ErrorCell cell) => cell.IsMostlyOtherNote ? "mostly another note or octave" : (cell.IsSound ? "good: " : "") + (cell.Kind switch
    {
        ErrorKind.Offset => string.Create(CultureInfo.InvariantCulture, $"off by {cell.Value:0} c"),
        ErrorKind.Wander => string.Create(CultureInfo.InvariantCulture, $"wanders {cell.Value:0} c"),
        ErrorKind.Drift => string.Create(CultureInfo.InvariantCulture, $"drifts {cell.Value:0} c"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{cell.Value:0.0} beats/s"),
    });

    // One picture for each exercise on each pair: figures of two exercises are not one course.
    private void Courses(TextWriter page, Player player)
    {
        int drawn = 0;
        foreach (IGrouping<(string, Pitch, Pitch), LoggedTake> alike in Takes.Where(take => take.IsMapped)
            .GroupBy(take => (take.Take.ExerciseId, take.Take.Played, take.Take.Sung)).OrderByDescending(alike => alike.Count()))
        {
            LoggedTake[] takes = [.. alike];
            if (ErrorMap.Of(takes).Cells is not [{ } cell, ..])
            {
                continue;
            }

            double[] values = [.. takes.Select(take => TakeError.Of(take.Take).Value(cell.Kind)).OfType<double>()];
            if (values.Length >= FewestForCourse && drawn < MostCourses)
            {
                Course(page, player, takes[0].Take, WeekTrend.Of(cell, takes, Zone), values, ++drawn);
            }
        }
    }

    /// <summary>Take by take, in one inline picture: squares joined by a line, the axis in words, the same told as text.</summary>
    private static void Course(TextWriter page, Player player, TakeRecord take, WeekTrend trend, double[] values, int number)
    {
        ErrorCell cell = trend.Cell;
        bool isBeats = cell.Kind == ErrorKind.Beats;
        string unit = isBeats ? "beats/s" : "c";
        string what = $"{take.Heading}, {NoteNames.Of(take.Played, player.NoteNames)} + {NoteNames.Of(take.Sung, player.NoteNames)}: {(isBeats ? "beats" : cell.Kind.ToString().ToLowerInvariant())}";
        string told = $"{string.Create(CultureInfo.InvariantCulture, $"{values.Length} takes: first {values[0]:0.#} {unit}, last {values[^1]:0.#} {unit}.")} {Weeks(trend)}".TrimEnd();
        double top = Ceiling(values.Max());
        double X(int i) => Left + ((Right - Left) * i / (values.Length - 1));
        double Y(double value) => Bottom - ((Bottom - Top) * Math.Min(value, top) / top);
        page.Write($"<figure class=\"course\"><svg role=\"img\" aria-labelledby=\"c{number}t c{number}d\" viewBox=\"0 0 {Width:0} {Height:0}\" xmlns=\"http://www.w3.org/2000/svg\">\n");
        page.Write($"<title id=\"c{number}t\">{Words(what)}, take by take</title><desc id=\"c{number}d\">{Words(told)}</desc>\n");
        foreach (double mark in (double[])[0, top / 2, top])
        {
            page.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"<line class=\"rule\" x1=\"{Left}\" x2=\"{Right}\" y1=\"{Y(mark):0.#}\" y2=\"{Y(mark):0.#}\"/><text x=\"{Left - 5}\" y=\"{Y(mark) + 4:0.#}\" text-anchor=\"end\">{mark:0.#}</text>\n"));
        }

        string points = string.Join(' ', values.Select((value, i) => string.Create(CultureInfo.InvariantCulture, $"{X(i):0.#},{Y(value):0.#}")));
        page.Write($"<polyline points=\"{points}\"/>\n");
        for (int i = 0; i < values.Length; i++)
        {
            page.Write(string.Create(CultureInfo.InvariantCulture, $"<rect x=\"{X(i) - 2.5:0.#}\" y=\"{Y(values[i]) - 2.5:0.#}\" width=\"5\" height=\"5\"/>\n"));
        }

        page.Write(string.Create(CultureInfo.InvariantCulture, $"<text x=\"{Left}\" y=\"{Bottom + 18}\">first take</text><text x=\"{Right}\" y=\"{Bottom + 18}\" text-anchor=\"end\">last take</text><text x=\"4\" y=\"10\">{unit}</text>\n"));
        page.Write($"</svg><figcaption><strong>{Words(what)}</strong>, lower is nearer. {Words(told)}</figcaption></figure>\n");
    }

    private void Last(TextWriter page, Player player)
    {
        page.Write("<table>\n<caption>The last takes</caption>\n<thead><tr><th scope=\"col\">Day</th><th scope=\"col\">Exercise</th><th scope=\"col\">P and S</th><th scope=\"col\">Result</th></tr></thead>\n<tbody>\n");
        foreach (LoggedTake take in Takes.TakeLast(LastTakes).Reverse())
        {
            string pair = $"{NoteNames.Of(take.Take.Played, player.NoteNames)}, {NoteNames.Of(take.Take.Sung, player.NoteNames)}";
            page.Write($"<tr><td>{Day(take)}</td><td>{Words(take.Take.Heading)}</td><td>{Words(pair)}</td><td>{Words(Result(take))}</td></tr>\n");
        }

        page.Write("</tbody>\n</table>\n");
    }

    private static string Result(LoggedTake take)
    {
        var error = TakeError.Of(take.Take);
        string figures = error switch
        {
            { BeatsPerSecond: { } beats } => string.Create(CultureInfo.InvariantCulture, $"{beats:0.0} beats/s"),
            { IsTold: true } => string.Join(", ", new[] { Figure("off by", error.OffsetCents), Figure("wanders", error.WanderCents), Figure("drifts", error.DriftCents) }.OfType<string>()),
            { IsOtherNote: true } => "another note or octave",
            _ => "no figure in cents",
        };
        string asked = take.Take.Result.AsAsked switch { true => "as asked; ", false => "not yet as asked; ", _ => "" };
        return take switch
        {
            { WhyNotScored: { } why } => $"not counted: {why}",
            { WhyNotJudged: { } why } => $"not judged: {why}",
            _ => asked + figures,
        };
    }

    private static string? Figure(string does, double? cents) => cents is { } told ? string.Create(CultureInfo.InvariantCulture, $"{does} {told:0} c") : null;

    // A top that is easily halved: 1, 2 or 5 times a power of ten.
    private static double Ceiling(double largest)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(Math.Max(largest, 0.1))));
        return new[] { 1.0, 2, 5, 10 }.Select(times => times * power).First(top => top >= largest * (1 - 1e-12));
    }

    /// <summary>A figure's first week beside its last one, in a sentence; empty where all takes are of one week.</summary>
    /// <param name="trend">The figure, week by week.</param>
    internal static string Weeks(WeekTrend trend)
    {
        WeekFigure[] weeks = [.. trend.Weeks.Where(week => week.Value is not null)];
        if (weeks.Length < 2)
        {
            return "";
        }

        string Told(WeekFigure week) => string.Create(
            CultureInfo.InvariantCulture,
            $"{(trend.Cell.Kind == ErrorKind.Beats ? $"{week.Value:0.0} beats/s" : $"{week.Value:0} c")} ({week.Takes} {(week.Takes == 1 ? "take" : "takes")}, week of {week.Monday:d MMMM})");
        string what = trend.Cell.Kind == ErrorKind.Beats ? "Beats" : trend.Cell.Kind.ToString();
        return $"{what}, median of a week: at first {Told(weeks[0])}, last {Told(weeks[^1])}.";
    }

    private string Day(LoggedTake take) => TimeZoneInfo.ConvertTime(take.Take.MadeAt, Zone).ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    private static string Words(string text) => Handout.Text(text);
}
