using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Log;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Handouts;
using BrassVox.Publishing.Notation;
using BrassVox.Tests.Practice;
using BrassVox.Tests.Practice.Log;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Publishing;

/// <summary>What a handout tells of a student's own takes, and in whose note names it tells anything.</summary>
public sealed class TakesSoFarTests
{
    private static readonly Player Trombone = new("Trombone-2", PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low));

    [Fact]
    public void The_course_of_an_interval_is_drawn_and_told()
    {
        LoggedTake[] takes = [.. new[] { 24.0, -20, 12, 11, 6, 2 }.Select((cents, i) => new LoggedTake(
            LogRig.Record($"take-{i}", LogRig.Monday.AddDays(4 * i), new SimulatedTone { OffsetCents = cents }), []))];
        string html = Html(Trombone with { NoteNames = NoteNaming.German }, new TakesSoFar(takes, TimeZoneInfo.Utc));
        Assert.Contains("6 takes from 7 September 2026 to 27 September 2026.", html, StringComparison.Ordinal);

        // Six points, from high to low, within the picture; the same told in words that the picture is labelled by.
        var picture = XElement.Parse(Regex.Match(html, "<svg .*?</svg>", RegexOptions.Singleline).Value);
        XNamespace svg = "http://www.w3.org/2000/svg";
        Assert.Equal("img", (string?)picture.Attribute("role"));
        string[] labels = ((string)picture.Attribute("aria-labelledby")!).Split(' ');
        Assert.Equal(labels, new[] { "title", "desc" }.Select(name => (string)picture.Element(svg + name)!.Attribute("id")!));
        string told = picture.Element(svg + "desc")!.Value;
        Match figures = Regex.Match(told, @"^6 takes: first (\S+) c, last (\S+) c\. Offset, median of a week: at first (\S+) c \(2 takes, week of 7 September\), last (\S+) c \(2 takes, week of 21 September\)\.$");
        double[] numbers = [.. figures.Groups.Values.Skip(1).Select(group => double.Parse(group.Value, CultureInfo.InvariantCulture))];
        Assert.Equal([24, 2, 22, 4], numbers, (one, other) => Math.Abs(one - other) < 1.5);
        double[][] points = [.. ((string)picture.Element(svg + "polyline")!.Attribute("points")!).Split(' ').Select(point => point.Split(',').Select(number => double.Parse(number, CultureInfo.InvariantCulture)).ToArray())];
        Assert.Equal(6, points.Length);
        Assert.All(points, point => Assert.True(point[0] is >= 0 and <= 360 && point[1] is >= 0 and <= 150));
        Assert.Equal(points.Select(point => point[0]).Order(), points.Select(point => point[0]));
        Assert.True(points[0][1] < points[3][1] && points[3][1] < points[5][1]);

        Assert.Matches("<small>6 takes; last week 4 c</small>", html);
        Assert.Contains("<th scope=\"row\">fifth</th>", html, StringComparison.Ordinal);
        Assert.Contains("P B2-E3", html, StringComparison.Ordinal); // German: B is B-flat
        Assert.Contains("<td>B2, F3</td>", html, StringComparison.Ordinal);
        Assert.Equal(6, Regex.Count(html, "<td>(as asked|not yet as asked); off by "));
    }

    /// <summary>Two exercises on one pair are two pictures: a wander of one and of the other are no course.</summary>
    [Fact]
    public void Each_exercise_has_a_picture_of_its_own()
    {
        LoggedTake Take(int i, string exercise, double cents) => new(LogRig.Record($"{exercise}-{i}", LogRig.Monday.AddDays(i), new SimulatedTone { OffsetCents = cents }, exercise), []);
        LoggedTake[] takes = [.. Enumerable.Range(0, 4).SelectMany(i => new[] { Take(i, "open-home-pair", 20), Take(i, "long-breath", 3) })];
        string html = Html(Trombone, new TakesSoFar(takes, TimeZoneInfo.Utc));
        string[] titles = [.. Regex.Matches(html, "<title id=\"c[0-9]t\">(.*?)</title>").Select(match => match.Groups[1].Value)];
        Assert.Equal(2, titles.Length);
        Assert.Equal("14 Open home pair, Bb2 &#x2B; F3: offset, take by take", titles[0]);
        Assert.StartsWith("17 Long breath, Bb2 &#x2B; F3: ", titles[1], StringComparison.Ordinal);
        Assert.All(Regex.Matches(html, "<polyline points=\"(.*?)\"").Select(match => match.Groups[1].Value.Split(' ').Length), points => Assert.Equal(4, points));
    }

    [Fact]
    public void Takes_that_could_not_be_judged_are_told_with_their_reason()
    {
        LoggedTake take = new(LogRig.Record("a", LogRig.Monday), []);
        LoggedTake open = take with { Take = take.Take with { Id = "b", Result = take.Take.Result with { AsAsked = null, Reached = null, Pair = take.Take.Result.Pair with { FogSeconds = 7, SeparableSeconds = 0 } } } };
        string html = Html(Trombone, new TakesSoFar([take, open], TimeZoneInfo.Utc));
        Assert.Contains("1 take could not be judged and counts neither for nor against you: 1 lay in fog", html, StringComparison.Ordinal);
        Assert.Contains("<td>not judged: in fog</td>", html, StringComparison.Ordinal);
    }

    [Fact]
    public void Takes_of_passages_are_counted_and_said_to_be_out_of_the_table()
    {
        LoggedTake take = new(LogRig.Record("a", LogRig.Monday), []);
        LoggedTake passage = take with { Take = take.Take with { Id = "b", ExerciseNumber = 0 } };
        string html = Html(Trombone, new TakesSoFar([take, passage, passage with { Take = passage.Take with { Id = "c" } }], TimeZoneInfo.Utc));
        Assert.Contains("3 takes of 7 September 2026; 2 of passages, which are many pairs each, are not in the table.", html, StringComparison.Ordinal);
        Assert.Contains("<small>1 take</small>", html, StringComparison.Ordinal);
    }

    /// <summary>On A4 with edges of 14 mm, 516 points wide, the letters of the chart of resultants are 8 points high at least. Ours.</summary>
    [Fact]
    public void Words_of_the_chart_can_be_read_on_paper()
    {
        string html = Html(Trombone, null);
        Match picture = Regex.Match(html, "<img alt=\"Pitches[^\"]+\" src=\"data:image/svg\\+xml;base64,([^\"]+)\"");
        string svg = System.Text.Encoding.UTF8.GetString(Convert.FromBase64String(picture.Groups[1].Value));
        static double Number(Match match) => double.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture);
        double shrunk = 516 / Number(Regex.Match(svg, "<svg[^>]* width=\"([0-9.]+)\""));
        double[] sizes = [.. Regex.Matches(svg, "font-size=\"([0-9.]+)\"").Select(Number)];
        Assert.NotEmpty(sizes);
        Assert.All(sizes, size => Assert.InRange(shrunk * size, 8, 14));
        Assert.Contains(".made figure img { width: 100%; max-height: none; }", html, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_told_where_nothing_was_kept_or_it_is_not_wanted()
    {
        Assert.DoesNotContain("so far", Html(Trombone, new TakesSoFar([], TimeZoneInfo.Utc)), StringComparison.Ordinal);
        Assert.DoesNotContain("so far", Html(Trombone, null), StringComparison.Ordinal);
    }

    // Letters with a figure are notes; a word of another exercise's text must not bring English ones in.
    [Xunit.Theory]
    [InlineData(NoteNaming.German, Instrument.Tuba, @"(?<![\w#])([A-G]b\d|[A-H]#\d|[a-h]b\d)")]
    [InlineData(NoteNaming.Solfege, Instrument.Tuba, @"(?<![\w#])[A-H](b|#)?\d(?!\w)")]
    [InlineData(NoteNaming.German, Instrument.Trumpet, @"(?<![\w#])([A-G]b\d|[A-H]#\d)|in Bb")]
    [InlineData(NoteNaming.Solfege, Instrument.Horn, @"(?<![\w#])[A-H](b|#)?\d(?!\w)|in F\b")]
    public void Every_note_has_the_players_name(NoteNaming naming, Instrument instrument, string english)
    {
        Player player = new("Student", PlayerProfile.Usual(instrument, VoiceKind.Low), naming);
        int sheets = 0;
        foreach (Exercise exercise in ShippedExercises.Library.Exercises)
        {
            if (ExerciseResolver.Resolve(exercise, player.Profile).Resolved is not { Steps.Count: > 0 } resolved)
            {
                continue;
            }

            SheetItem sheet = new(exercise.Id, resolved);
            string article = Handout.Article(player, new HandoutItem(resolved, new HandoutSound([]), new Engraving(null, "none")), 1);
            string pictures = string.Concat(Regex.Matches(article, "svg\\+xml;base64,([A-Za-z0-9+/=]+)").Select(match => System.Text.Encoding.UTF8.GetString(Convert.FromBase64String(match.Groups[1].Value))));
            string told = Regex.Replace(article, "base64,[A-Za-z0-9+/=]+", "") + Regex.Replace(pictures, "<(path|g|svg|rect|use|image)[^>]*>", "");
            string staves = string.Concat(Regex.Matches(LilyPondText.Write(sheet.ScoreFor(player)), "\"[^\"]*\"").Select(match => match.Value));
            Assert.DoesNotMatch(english, told + staves);
            sheets++;
        }

        Assert.True(sheets > 12);
    }

    private static string Html(Player player, TakesSoFar? soFar)
    {
        ResolvedExercise resolved = ShippedExercises.Resolve("open-home-pair", player.Profile.Instrument, player.Profile.Voice);
        return Handout.Html(player, [new HandoutItem(resolved, new HandoutSound([]), new Engraving(null, "none"))], "A sheet", soFar);
    }
}
