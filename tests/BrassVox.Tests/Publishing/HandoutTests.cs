using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Handouts;
using BrassVox.Publishing.Notation;
using BrassVox.Synthesis;
using BrassVox.Tests.Support;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Publishing;

public sealed class HandoutTests
{
    private const string Hostile = "</title><script>alert(1)</script>\" onload=\"x";
    private static readonly TonePresets Tones = TonePresets.Load(Path.Combine(Repository.Root, "presets", "tones"));
    private static readonly ExerciseLibrary Exercises = ExerciseLibrary.Load(Path.Combine(Repository.Root, "presets", "exercises"));
    private static readonly Player Trombone = new("Trombone-2", PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low));

    [Fact]
    public void Words_of_the_user_are_text_and_nothing_else()
    {
        HandoutItem item = Item("open-home-pair", Trombone);
        item = item with { Resolved = item.Resolved with { Exercise = item.Resolved.Exercise with { Name = Hostile } } };
        string html = Handout.Html(Trombone, [item], Hostile);
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
        Assert.DoesNotContain("\" onload", html, StringComparison.Ordinal);
        Assert.Equal(2, Regex.Count(html, "</?title>"));
        Assert.Contains("&lt;script&gt;alert(1)", html, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_the_engraver_it_says_why_and_is_whole()
    {
        string html = Handout.Html(Trombone, [Item("open-home-pair", Trombone)], "A sheet");
        Assert.Contains("Notes not engraved: no-such-engraver is not there; install LilyPond.", html, StringComparison.Ordinal);
        Assert.Equal(5, Regex.Count(html, "<audio controls"));
        Assert.Equal(1, Regex.Count(html, "<img "));
        foreach (string part in new[] { "What to do", "How it sounds", "What the two tones make", "How to practise", "My takes", "Care: read this first" })
        {
            Assert.Contains($">{part}</h", html, StringComparison.Ordinal);
        }

        Assert.EndsWith("</html>\n", html, StringComparison.Ordinal);
    }

    [Fact]
    public void What_can_hurt_stands_before_what_to_do()
    {
        string html = Handout.Html(Trombone, [Item("open-home-pair", Trombone)], "A sheet");
        Assert.Single(Regex.Matches(html, "id=\"care\""));
        Assert.InRange(html.IndexOf("id=\"care\"", StringComparison.Ordinal), 0, html.IndexOf("<article", StringComparison.Ordinal));
    }

    /// <summary>On a phone of 360 pixels, 16 of them at each edge and 8 about a picture, letters are 10 pixels high at least. Ours.</summary>
    [Theory]
    [InlineData(NoteNaming.English)]
    [InlineData(NoteNaming.Solfege)]
    public void On_a_phone_the_words_of_the_picture_are_large_enough(NoteNaming naming)
    {
        Player player = Trombone with { NoteNames = naming };
        string html = Handout.Html(player, [Item("open-home-pair", player)], "A sheet");
        Match source = Regex.Match(html, "<source media=\"screen and \\(max-width: 30rem\\)\" srcset=\"data:image/svg\\+xml;base64,([^\"]+)\">");
        Assert.True(source.Success);
        string svg = Encoding.UTF8.GetString(Convert.FromBase64String(source.Groups[1].Value));
        double width = Number(Regex.Match(svg, "<svg[^>]* width=\"([0-9.]+)\"").Groups[1].Value);
        double shrunk = Math.Min(1, (360 - (2 * 16) - (2 * 8)) / width);
        double[] sizes = [.. Regex.Matches(svg, "font-size=\"([0-9.]+)\"").Select(match => Number(match.Groups[1].Value))];
        Assert.NotEmpty(sizes);
        Assert.All(sizes, size => Assert.InRange(shrunk * size, 10, 20));
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [Fact]
    public void What_the_tones_make_is_of_the_pairs_that_are_asked()
    {
        // Six pairs with several played notes: a row each, and no picture of one P.
        string html = Handout.Html(Trombone, [Item("twelve-intervals", Trombone)], "A sheet");
        Assert.Contains("What the asked pairs make", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<img ", html, StringComparison.Ordinal);

        // A fifth of 3:2 on Bb2, 116.54 Hz: S-P is the octave below it, 58.27 Hz.
        string pair = Handout.Html(Trombone, [Item("open-home-pair", Trombone)], "A sheet");
        Assert.Contains("<td>S-P</td><td>58.3</td><td>Bb1</td>", pair, StringComparison.Ordinal);

        Assert.Contains("never held together", Handout.Html(Trombone, [Item("alternate", Trombone)], "A sheet"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(NoteNaming.English, "Hear Bb2, then Eb3.")]
    [InlineData(NoteNaming.German, "Hear B2, then Es3.")]
    [InlineData(NoteNaming.Solfege, "Hear Sib2, then Mib3.")]
    public void Notes_in_prompts_have_the_players_names(NoteNaming naming, string expected)
    {
        Player player = Trombone with { NoteNames = naming };
        HandoutItem item = Item("open-home-pair", player);
        ExerciseStep step = item.Resolved.Steps[0] with { Prompt = "Hear Bb2, then Eb3." };
        Assert.Contains(expected, Handout.Html(player, [item with { Resolved = item.Resolved with { Steps = [step] } }], "A sheet"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_sheet_holds_something_and_has_a_title()
    {
        Assert.Throws<ArgumentException>(() => Handout.Html(Trombone, [], "A sheet"));
        Assert.Throws<ArgumentException>(() => Handout.Html(Trombone, [Item("open-home-pair", Trombone)], " "));
    }

    private static HandoutItem Item(string id, Player player)
    {
        SheetItem sheet = new(id, ExerciseResolver.Resolve(Exercises.Find(id)!, player.Profile).Resolved!);
        return new HandoutItem(sheet.Resolved, HandoutSound.Of(sheet.Resolved, new FlowPair(Tones.BrassById("trombone"), Tones.VoiceById("bass"), 1), TestContext.Current.CancellationToken), new Engraver("no-such-engraver").Engrave(sheet.ScoreFor(player)));
    }
}
