using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>
/// Exercises and takes as one HTML file for a student: sound, pictures and notes lie within it, so it works without network and without
/// script, on a phone, a screen and paper. On paper each exercise begins a page and has lines to write on.
/// </summary>
public static class Handout
{
    /// <summary>The whole file as text.</summary>
    /// <param name="player">For whom it is.</param>
    /// <param name="items">Its exercises and passages.</param>
    /// <param name="title">Title of the sheet.</param>
    /// <param name="soFar">The player's takes; null leaves them out.</param>
    /// <param name="reviews">Takes of the player to be looked at one by one; null for none.</param>
    /// <exception cref="ArgumentException">There is neither item nor review, or the title is blank.</exception>
    public static string Html(Player player, IReadOnlyList<HandoutItem> items, string title, TakesSoFar? soFar = null, IReadOnlyList<TakeReview>? reviews = null)
    {
        var page = new StringWriter(CultureInfo.InvariantCulture);
        Write(page, player, [.. items.Select(item => item.Resolved)], title, soFar, i => page.Write(Article(player, items[i], i + 1)), reviews);
        return page.ToString();
    }

    /// <summary>Writes the file around its articles, which may come from elsewhere, one after the other.</summary>
    /// <param name="page">Where to.</param>
    /// <param name="player">For whom it is.</param>
    /// <param name="asked">Its exercises and passages.</param>
    /// <param name="title">Title of the sheet.</param>
    /// <param name="soFar">The player's takes; null leaves them out.</param>
    /// <param name="writeArticle">Writes the article of that index, from 0, to the same place: what <see cref="Article"/> gave for the index plus 1.</param>
    /// <param name="reviews">Takes of the player to be looked at one by one; null for none.</param>
    /// <exception cref="ArgumentException">There is neither exercise nor review, or the title is blank.</exception>
    public static void Write(
        TextWriter page, Player player, IReadOnlyList<ResolvedExercise> asked, string title, TakesSoFar? soFar, Action<int> writeArticle, IReadOnlyList<TakeReview>? reviews = null)
    {
        reviews ??= [];
        ArgumentException.ThrowIfNullOrWhiteSpace(title);
        if (asked.Count + reviews.Count == 0)
        {
            throw new ArgumentException("A handout holds at least one exercise or take.", nameof(asked));
        }

        page.Write("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        page.Write("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<link rel=\"icon\" href=\"data:,\">\n");
        page.Write($"<title>{Text(title)}</title>\n<style>\n{HandoutStyle.Css}</style>\n</head>\n<body>\n");
        page.Write($"<header>\n<h1>{Text(title)}</h1>\n<p>{Text(Whose(player))}</p>\n</header>\n");
        page.Write("<nav aria-label=\"On this sheet\">\n<ul>\n");
        for (int i = 0; i < asked.Count; i++)
        {
            page.Write(string.Create(CultureInfo.InvariantCulture, $"<li><a href=\"#e{i + 1}\">{Text(NoteNames.Respelled(asked[i].Exercise.Name, player.NoteNames))}</a></li>\n"));
        }

        for (int i = 0; i < reviews.Count; i++)
        {
            page.Write(string.Create(CultureInfo.InvariantCulture, $"<li><a href=\"#t{i + 1}\">{Text(NoteNames.Respelled(reviews[i].Title, player.NoteNames))}</a></li>\n"));
        }

        bool hasTakes = soFar is { HasTakes: true };
        page.Write(hasTakes ? "<li><a href=\"#takes\">Your takes so far</a></li>\n" : "");
        page.Write("</ul>\n</nav>\n<main>\n");
        // What can hurt stands before what to do, on paper too.
        page.Write("<section aria-labelledby=\"care\">\n<h2 id=\"care\">Care: read this first</h2>\n<ul>\n");
        foreach (Caution caution in asked.SelectMany(resolved => resolved.Exercise.Cautions).Concat(reviews.SelectMany(review => review.Cautions)).Prepend(Caution.Hearing).Distinct())
        {
            page.Write($"<li>{Text(Cautions.TextOf(caution))}</li>\n");
        }

        page.Write("</ul>\n<p>This is information, not medical advice: local rules, your teacher and licensed practice go first.</p>\n</section>\n");
        for (int i = 0; i < asked.Count; i++)
        {
            writeArticle(i);
        }

        for (int i = 0; i < reviews.Count; i++)
        {
            var article = new StringBuilder();
            TakeReviewSheet.Append(article, player, reviews[i], i + 1);
            page.Write(article);
        }

        if (hasTakes)
        {
            soFar!.Append(page, player);
        }

        page.Write("</main>\n<footer><p>Made with BrassVox. Nothing in this file calls the network.</p></footer>\n</body>\n</html>\n");
    }

    /// <summary>The part of one exercise or passage. From any thread.</summary>
    /// <param name="player">For whom it is; the name is not used.</param>
    /// <param name="item">What it is about.</param>
    /// <param name="number">Its number within the file, from 1.</param>
    public static string Article(Player player, HandoutItem item, int number)
    {
        var page = new StringBuilder();
        HandoutSheet.Append(page, player, item, number);
        return page.ToString();
    }

    /// <summary>Words as HTML text or attribute: nothing in them is carried out.</summary>
    internal static string Text(string text) => HtmlEncoder.Default.Encode(text);

    private static string Whose(Player player)
    {
        string name = player.Name.Length > 0 ? $"For {player.Name}: " : "For ";
        string reading = player.NoteNames switch
        {
            NoteNaming.German => "; notes have German names (B is B-flat, H is B natural)",
            NoteNaming.Solfege => "; notes have solfege names (Do is C)",
            _ => "",
        };
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{name}{player.Profile.Instrument.ToString().ToLowerInvariant()}, {player.Profile.Voice.ToString().ToLowerInvariant()} voice, sung from {NoteNames.Of(player.Profile.LowestSung, player.NoteNames)} to {NoteNames.Of(player.Profile.HighestSung, player.NoteNames)}; {NoteNames.Respelled("A4", player.NoteNames)} {player.Profile.A4Hz:0.#} Hz{reading}.");
    }
}
