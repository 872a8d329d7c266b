using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Pictures;
using BrassVox.Publishing.Tracks;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>
/// Exercises as one HTML file for a student: sound, pictures and notes lie within it, so it works without network and without
/// script, on a phone, a screen and paper.
/// </summary>
public static class Handout
{
    private const int ResultantOrder = 3;
    private const int PictureWidth = 1000;
    private const int PictureHeight = 560;

    private static readonly (string Name, string Label)[] Heard =
    [
        ("both", "Both tones"), ("played", "Played tone alone"), ("sung", "Sung tone alone"),
        ("for-the-player", "Play along: the sung tone, with cue and count"), ("for-the-singer", "Sing along: the played tone, with cue and count"),
    ];

    /// <summary>The whole file as text.</summary>
    /// <param name="player">For whom it is.</param>
    /// <param name="items">What it holds, at least one.</param>
    /// <param name="title">Title of the sheet.</param>
    /// <exception cref="ArgumentException">There is no item.</exception>
    public static string Html(Player player, IReadOnlyList<HandoutItem> items, string title)
    {
        var page = new StringWriter(CultureInfo.InvariantCulture);
        Write(page, player, [.. items.Select(item => item.Resolved)], title, i => page.Write(Article(player, items[i], i + 1)));
        return page.ToString();
    }

    /// <summary>Writes the file around its articles, which may come from elsewhere, one after the other.</summary>
    /// <param name="page">Where to.</param>
    /// <param name="player">For whom it is.</param>
    /// <param name="asked">What it holds, at least one.</param>
    /// <param name="title">Title of the sheet.</param>
    /// <param name="writeArticle">Writes the article of that index, from 0, to the same place: what <see cref="Article"/> gave for the index plus 1.</param>
    /// <exception cref="ArgumentException">Nothing is asked.</exception>
    public static void Write(TextWriter page, Player player, IReadOnlyList<ResolvedExercise> asked, string title, Action<int> writeArticle)
    {
        if (asked.Count == 0)
        {
            throw new ArgumentException("A handout holds at least one exercise.", nameof(asked));
        }

        page.Write("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        page.Write("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<link rel=\"icon\" href=\"data:,\">\n");
        page.Write($"<title>{Text(title)}</title>\n<style>\n{HandoutStyle.Css}</style>\n</head>\n<body>\n");
        page.Write($"<header>\n<h1>{Text(title)}</h1>\n<p>{Text(Whose(player))}</p>\n</header>\n<main>\n");
        if (asked.Count > 1)
        {
            page.Write("<nav aria-label=\"Exercises\">\n<ol>\n");
            for (int i = 0; i < asked.Count; i++)
            {
                page.Write(string.Create(CultureInfo.InvariantCulture, $"<li><a href=\"#e{i + 1}\">{Text(asked[i].Exercise.Name)}</a></li>\n"));
            }

            page.Write("</ol>\n</nav>\n");
        }

        for (int i = 0; i < asked.Count; i++)
        {
            writeArticle(i);
        }

        page.Write("<section aria-labelledby=\"care\">\n<h2 id=\"care\">Care</h2>\n<ul>\n");
        foreach (Caution caution in asked.SelectMany(resolved => resolved.Exercise.Cautions).Prepend(Caution.Hearing).Distinct())
        {
            page.Write($"<li>{Text(Cautions.TextOf(caution))}</li>\n");
        }

        page.Write("</ul>\n<p>This is information, not medical advice: local rules, your teacher and licensed practice go first.</p>\n</section>\n");
        page.Write("</main>\n<footer><p>Made with BrassVox. Nothing in this file calls the network.</p></footer>\n</body>\n</html>\n");
    }

    /// <summary>The part of one exercise or passage. From any thread.</summary>
    /// <param name="player">For whom it is; the name is not used.</param>
    /// <param name="item">What it is about.</param>
    /// <param name="number">Its number within the file, from 1.</param>
    public static string Article(Player player, HandoutItem item, int number)
    {
        var page = new StringBuilder();
        Item(page, player, item, number);
        return page.ToString();
    }

    private static void Item(StringBuilder page, Player player, HandoutItem item, int number)
    {
        Exercise exercise = item.Resolved.Exercise;
        page.Append(CultureInfo.InvariantCulture, $"<article aria-labelledby=\"e{number}\">\n<h2 id=\"e{number}\">{Text(exercise.Name)}</h2>\n<p>{Text(exercise.About)}</p>\n");
        page.Append(CultureInfo.InvariantCulture, $"<p><strong>Listen for:</strong> {Text(exercise.ListenFor)}</p>\n");
        if (item.Notation is { } notes)
        {
            Figure(page, Encoding.UTF8.GetBytes(notes), $"Notes of {exercise.Name}; the same stand in the table below.", "Round heads: play; diamond heads: sing.");
        }
        else if (item.WhyNoNotation is { } why)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>{Text(why)}</p>\n");
        }

        Asked(page, player, item.Resolved);
        Sound(page, item);
        Together(page, player, item.Resolved.Pair);
        string takes = string.Create(CultureInfo.InvariantCulture, $"{exercise.Dose.Minutes:0.#} minutes; {exercise.Dose.Takes} takes, {exercise.Dose.Pass} of them as asked, then the next exercise.");
        page.Append(CultureInfo.InvariantCulture, $"<p><strong>Dose:</strong> {Text(takes)}</p>\n</article>\n");
    }

    private static void Asked(StringBuilder page, Player player, ResolvedExercise resolved)
    {
        foreach (string note in resolved.Notes)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>{Text(note)}</p>\n");
        }

        page.Append("<table>\n<caption>What is asked, in sounding notes</caption>\n<thead><tr><th scope=\"col\">From</th><th scope=\"col\">Played</th><th scope=\"col\">Sung</th><th scope=\"col\">Step</th></tr></thead>\n<tbody>\n");
        for (int i = 0; i < resolved.Steps.Count; i++)
        {
            ExerciseStep step = resolved.Steps[i];
            var task = (PlayTask)step.Task;
            page.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<tr><td>{resolved.StepStartSeconds(i):0.#} s</td><td>{Text(Path(task.Played, player))}</td><td>{Text(Path(task.Sung, player))}</td><td>{Text(step.Prompt)}</td></tr>\n"));
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static string Path(AskedPart? part, Player player)
    {
        if (part is null)
        {
            return "rest";
        }

        IEnumerable<string> words = part.Segments.Where(segment => segment.Move != Move.Rest).Select(segment =>
        {
            string cents = Math.Abs(segment.Cents) < 0.05 ? "" : string.Create(CultureInfo.InvariantCulture, $" {segment.Cents:+0;-0} c");
            return $"{(segment.Move == Move.Glide ? "glide to " : "")}{NoteNames.Of(segment.Note, player.NoteNames)}{cents}";
        });
        return string.Join(", ", words);
    }

    private static void Sound(StringBuilder page, HandoutItem item)
    {
        page.Append("<ul class=\"sound\">\n");
        foreach ((string name, string label) in Heard)
        {
            PracticeTrack track = item.Tracks.Tracks.Single(candidate => candidate.Name == name);
            string title = $"{item.Resolved.Exercise.Name}: {track.Title}";
            string data = Convert.ToBase64String(TrackFiles.Opus(item.Tracks, track, title, "Practice"));
            page.Append(CultureInfo.InvariantCulture, $"<li><span>{Text(label)}</span><audio controls preload=\"metadata\" aria-label=\"{Text($"{item.Resolved.Exercise.Name}: {label}")}\" src=\"data:audio/ogg;base64,{data}\"></audio></li>\n");
        }

        page.Append("</ul>\n");
    }

    private static void Together(StringBuilder page, Player player, ResolvedPair pair)
    {
        string played = NoteNames.Of(pair.Played, player.NoteNames);
        string sung = NoteNames.Of(pair.Sung, player.NoteNames);
        page.Append(string.Create(
            CultureInfo.InvariantCulture,
            $"<table>\n<caption>What {Text(played)} played ({pair.PlayedHz:0.0} Hz) and {Text(sung)} sung ({pair.SungHz:0.0} Hz) make together; {Text(pair.Tuning.Name)}, A4 {pair.A4Hz:0.#} Hz</caption>\n"));
        page.Append("<thead><tr><th scope=\"col\">Made of</th><th scope=\"col\">Hz</th><th scope=\"col\">Nearest note</th><th scope=\"col\">Cents from it</th></tr></thead>\n<tbody>\n");
        foreach (Resultant line in Resultants.Of(pair.PlayedHz, pair.SungHz, ResultantOrder).Where(line => !line.IsHarmonic && line.FrequencyHz >= 20))
        {
            NearestNote near = NearestNote.Of(line.FrequencyHz, pair.A4Hz);
            page.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<tr><td>{Text(line.Name)}</td><td>{line.FrequencyHz:0.0}</td><td>{Text(NoteNames.Of(near.Note, player.NoteNames))}</td><td>{near.Cents:+0;-0;0}</td></tr>\n"));
        }

        page.Append("</tbody>\n</table>\n");
        if (ResultantChart.Of(pair.PlayedHz, pair.SungHz, ResultantOrder, pair.A4Hz).ToSvg(PictureWidth, PictureHeight) is { } chart)
        {
            Figure(page, chart, $"Pitches of the resultants while the sung tone moves past {played}.", "The upright line marks your pair.");
        }
    }

    // As an image of its own: names inside one SVG cannot clash with those of another.
    private static void Figure(StringBuilder page, byte[] svg, string description, string caption) => page.Append(
        CultureInfo.InvariantCulture,
        $"<figure><img alt=\"{Text(description)}\" src=\"data:image/svg+xml;base64,{Convert.ToBase64String(svg)}\"><figcaption>{Text(caption)}</figcaption></figure>\n");

    private static string Whose(Player player)
    {
        string name = player.Name.Length > 0 ? $"{player.Name}: " : "";
        return $"{name}{player.Profile.Instrument.ToString().ToLowerInvariant()}, {player.Profile.Voice.ToString().ToLowerInvariant()} voice, sung from {NoteNames.Of(player.Profile.LowestSung, player.NoteNames)} to {NoteNames.Of(player.Profile.HighestSung, player.NoteNames)}";
    }

    private static string Text(string text) => HtmlEncoder.Default.Encode(text);
}
