using System.Buffers.Binary;
using System.Text.RegularExpressions;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Passages;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Publishing.Handouts;
using BrassVox.Tests.Practice;
using BrassVox.Tests.Practice.Log;
using BrassVox.Theory;
using Xunit;

namespace BrassVox.Tests.Publishing;

/// <summary>The review of one take within a handout: what is told, in whose words, and what is not.</summary>
public sealed class TakeReviewTests
{
    private static readonly Player Trombone = new("Trombone-2", PlayerProfile.Usual(Instrument.Trombone, VoiceKind.Low));

    [Fact]
    public void Figures_faults_times_and_what_is_next_are_told()
    {
        TakeReview review = Review(sung: new SimulatedTone { OffsetCents = 22, FlinchCents = 30, FlinchAtSeconds = 4 });
        string html = Html(Trombone, review);
        Assert.Contains("<h2 id=\"t1\">Open home pair, a take of 7 September 2026, 17:30</h2>", html, StringComparison.Ordinal);
        Assert.Contains("<p>Monday. Bb2 played (116.5 Hz), F3 sung (174.8 Hz): fifth; just, A4 440 Hz. Aim II.", html, StringComparison.Ordinal);
        Assert.Contains("Not yet as asked; grade I reached.", html, StringComparison.Ordinal);
        Assert.Matches("<tr><th scope=\"row\">Played</th><td>(\\+0|0)&nbsp;c</td>", html);
        Assert.Contains("<tr><th scope=\"row\">Sung</th><td>+22&nbsp;c</td>", html, StringComparison.Ordinal);
        Assert.Contains("The interval was 22 c wide.", html, StringComparison.Ordinal);
        Assert.Contains($"<td>0&nbsp;to&nbsp;8&nbsp;s</td><td><strong>no</strong></td><td>{Handout.Text(review.Take.Result.Findings.First(finding => finding.Verdict == Verdict.Missed).Text)}</td>", html, StringComparison.Ordinal);

        // High by 22 c all along, by 52 c for the second from 4 s on.
        Match left = Regex.Match(html, "<tr><td>(\\S+)&nbsp;s</td><td>(\\S+)&nbsp;s</td><td>sung</td><td>(\\d+)&nbsp;c high</td></tr>");
        Assert.Equal(["0.1", "7.9", "52"], left.Groups.Values.Skip(1).Select(group => group.Value), (one, other) => Math.Abs(Number(one) - Number(other)) < 0.25);
        Assert.Contains($"<p><strong>{Handout.Text(review.Take.Result.Next)}</strong></p>", html, StringComparison.Ordinal);
        Assert.Contains("The sung tone is high", review.Take.Result.Next, StringComparison.Ordinal);
        Assert.Contains("<p>On the plan again: something.</p>", html, StringComparison.Ordinal);
        Assert.Contains("Stop at pain", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<audio", html, StringComparison.Ordinal);
    }

    [Fact]
    public void The_picture_has_its_words_and_the_players_note_names()
    {
        string html = Html(Trombone with { NoteNames = NoteNaming.German }, Review(sung: new SimulatedTone { OffsetCents = 22 }));
        Match picture = Regex.Match(html, "<img alt=\"([^\"]+)\" src=\"data:image/svg\\+xml;base64,([^\"]+)\">");
        Assert.Contains("Sung tone &#x2B;22 c from what was asked, wandering 0 c", picture.Groups[1].Value, StringComparison.Ordinal);
        Assert.Contains("B2 played (116.5 Hz)", html, StringComparison.Ordinal);
        string svg = System.Text.Encoding.UTF8.GetString(Convert.FromBase64String(picture.Groups[2].Value));
        Assert.Contains("SUNG", svg, StringComparison.Ordinal);
        Assert.Contains("B2, 116.54 Hz", svg, StringComparison.Ordinal);
        Assert.DoesNotContain("Bb2", svg, StringComparison.Ordinal);
    }

    /// <summary>On a phone of 360 pixels, 16 of them at each edge and 8 about a picture, letters are 10 pixels high at least. Ours.</summary>
    [Theory]
    [InlineData(NoteNaming.English)]
    [InlineData(NoteNaming.Solfege)]
    public void On_a_phone_the_words_of_the_picture_are_large_enough(NoteNaming naming)
    {
        string html = Html(Trombone with { NoteNames = naming }, Review(sung: new SimulatedTone { OffsetCents = 22 }));
        Match source = Regex.Match(html, "<source media=\"screen and \\(max-width: 30rem\\)\" srcset=\"data:image/svg\\+xml;base64,([^\"]+)\">");
        Assert.True(source.Success);
        string svg = System.Text.Encoding.UTF8.GetString(Convert.FromBase64String(source.Groups[1].Value));
        double shrunk = Math.Min(1, (360 - (2 * 16) - (2 * 8)) / Number(Regex.Match(svg, "<svg[^>]* width=\"([0-9.]+)\"").Groups[1].Value));
        double[] sizes = [.. Regex.Matches(svg, "font-size=\"([0-9.]+)\"").Select(match => Number(match.Groups[1].Value))];
        Assert.NotEmpty(sizes);
        Assert.All(sizes, size => Assert.InRange(shrunk * size, 10, 20));
        foreach (string words in new[] { "PLAYED", "SUNG", "beats a second", "time in seconds" })
        {
            Assert.Contains(words, svg, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Transposed_parts_name_the_written_notes_as_well() =>
        Assert.Contains("In the part, in Bb: C4 and G4.", Html(Trombone with { ReadsTransposed = true }, Review()), StringComparison.Ordinal);

    [Fact]
    public void A_take_without_its_course_or_its_exercise_still_tells_its_figures()
    {
        TakeReview review = Review(sung: new SimulatedTone { OffsetCents = 22 });
        string figures = Html(Trombone, review with { Take = review.Take with { Frames = [] } });
        Assert.Contains("Of this take only figures were kept", figures, StringComparison.Ordinal);
        Assert.Contains("<td>+22&nbsp;c</td>", figures, StringComparison.Ordinal);
        Assert.DoesNotContain("<img", figures, StringComparison.Ordinal);
        string unknown = Html(Trombone, review with { Asked = null });
        Assert.Contains("What was asked is not known any more", unknown, StringComparison.Ordinal);
        Assert.Contains("<img", unknown, StringComparison.Ordinal);
        Assert.Contains("<td>throughout</td><td><strong>no</strong></td>", unknown, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_a_take_spoiled_by_the_drone_no_figure_is_told()
    {
        TakeReview review = Review(sung: new SimulatedTone { OffsetCents = 22 });
        string html = Html(Trombone, review with { Take = review.Take with { Drone = new DroneInTake(true, -3, -5) } });
        Assert.Contains("no figure of this take can be told", html, StringComparison.Ordinal);
        Assert.DoesNotContain("22", Regex.Replace(html, "<style>.*?</style>", "", RegexOptions.Singleline), StringComparison.Ordinal);
        Assert.DoesNotContain("<img", html, StringComparison.Ordinal);
    }

    [Fact]
    public void A_pull_is_told_where_one_tone_was_to_hold()
    {
        ResolvedExercise asked = ShippedExercises.Resolve("voice-glides-to-the-octave");
        Assert.Matches("Pull: while the sung tone moved \\(\\d{3} c\\), the played tone was not drawn along\\.", Html(Trombone, Review(asked)));
    }

    [Fact]
    public void A_sound_begins_with_the_take_and_is_as_long_whatever_its_rate()
    {
        foreach (int rate in (int[])[44100, 48000, 96000])
        {
            float[] tone = [.. Enumerable.Range(0, 5 * rate).Select(i => (float)(0.5 * Math.Sin(2 * Math.PI * 440 * i / rate)))];
            byte[] opus = TakeSound.Opus(tone, rate, 1.25, 4.5, "A take")!;
            Assert.Equal(3.25, Seconds(opus), 3);
            Assert.Equal(3.75, Seconds(TakeSound.Opus(tone, rate, 1.25, null, "A take")!), 3);
            Assert.Equal(3.75, Seconds(TakeSound.Opus(tone, rate, 1.25, 60, "A take")!), 3);
            Assert.Null(TakeSound.Opus(tone, rate, 7, 9, "A take"));
        }
    }

    [Fact]
    public void A_passage_is_told_bar_by_bar_and_drawn_about_each_notes_own_place()
    {
        Passage passage = ShippedPassages.Load(ShippedPassages.First, Trombone.Profile).Passage!;
        ResolvedExercise asked = PassageExercise.Resolve(passage, Trombone.Profile, new PassageTurn(3, 6), new TakeOptions());
        string html = Html(Trombone, Review(asked, new SimulatedTone { OffsetCents = 12 }));
        Assert.Matches("Bars 3 to 6: \\d+ notes played, F2 to F3, \\d+ notes sung, F3 to C4; just, A4 440 Hz\\.", html);
        Assert.DoesNotContain(" Hz): ", html, StringComparison.Ordinal);
        Assert.Contains("each about its own place; what lies over 100 c off, as between two notes, is not drawn. Upright lines: bars", html, StringComparison.Ordinal);
        string[] pictures = [.. Regex.Matches(html, "svg\\+xml;base64,([^\"]+)\"").Select(match => System.Text.Encoding.UTF8.GetString(Convert.FromBase64String(match.Groups[1].Value)))];
        Assert.Equal(2, pictures.Length);
        Assert.All(pictures, svg =>
        {
            Assert.Contains("each note asked", svg, StringComparison.Ordinal);
            Assert.DoesNotContain("Hz", svg, StringComparison.Ordinal);
            Assert.Equal(["3", "4", "5", "6"], Regex.Matches(svg, "<text[^>]*font-size=\"13\"[^>]*>\\s*(\\d)\\s*</text>").Select(match => match.Groups[1].Value).Take(4));
        });

        // The sheet of the same bars names each.
        string article = Handout.Article(Trombone, new HandoutItem(asked, new HandoutSound([]), new BrassVox.Publishing.Notation.Engraving(null, "none")), 1);
        Assert.Equal(["3", "4", "5", "6"], Regex.Matches(article, "<tr><th scope=\"row\">(\\d+)</th><td>[\\d.]+&nbsp;s</td>").Select(match => match.Groups[1].Value));
        Assert.Contains("<tr><th scope=\"row\">4</th><td>4&nbsp;s</td><td>Eb3&nbsp;-2&nbsp;c, Bb2</td><td>C4&nbsp;-18&nbsp;c, Bb3</td></tr>", article, StringComparison.Ordinal);
        Assert.Contains("<th scope=\"col\">Bar</th><th scope=\"col\">Played</th>", article, StringComparison.Ordinal);
        Assert.DoesNotContain("next exercise", html + article, StringComparison.Ordinal);
    }

    [Fact]
    public void When_a_tone_began_is_told_against_when_it_was_asked_and_what_was_told_apart_from_fog()
    {
        ResolvedExercise later = ShippedExercises.Resolve("enter-on-a-held-tone");
        string html = Html(Trombone, Review(later));
        Assert.Matches("<td>on time<br><small>asked at [1-9][\\d.]*&nbsp;s</small></td>", html);
        TakeReview review = Review(sung: new SimulatedTone { OffsetCents = 5 });
        JudgedTone sung = review.Take.Result.Sung! with { HeardSeconds = 8, AskedSeconds = 8, ToldSeconds = 2.4 };
        html = Html(Trombone, review with { Take = review.Take with { Result = review.Take.Result with { Sung = sung } } });
        Assert.Contains("<td>2.4 of 8.0&nbsp;s<br><small>5.6&nbsp;s more not told from the other</small></td>", html, StringComparison.Ordinal);

        // A take judged before that was kept is told from its frames.
        html = Html(Trombone, review with { Take = review.Take with { Result = review.Take.Result with { Sung = sung with { ToldSeconds = null } } } });
        Assert.DoesNotContain("not told from the other<", html, StringComparison.Ordinal);
    }

    [Fact]
    public void The_sound_of_nobody_needs_nobodys_leave()
    {
        TakeReview review = Review() with { Sound = [1, 2, 3] };
        Assert.Contains("the sound of a person", Html(Trombone, review), StringComparison.Ordinal);
        string simulated = Html(Trombone, review with { Take = review.Take with { IsSimulated = true } });
        Assert.Contains("nobody played it", simulated, StringComparison.Ordinal);
        Assert.DoesNotContain("the sound of a person", simulated, StringComparison.Ordinal);
    }

    private static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    // RFC 7845: the last page's position, less what is skipped at the beginning, counts samples at 48 kHz.
    private static double Seconds(byte[] opus)
    {
        int head = opus.AsSpan().IndexOf("OpusHead"u8);
        int last = opus.AsSpan().LastIndexOf("OggS"u8);
        return (BinaryPrimitives.ReadInt64LittleEndian(opus.AsSpan(last + 6)) - BinaryPrimitives.ReadUInt16LittleEndian(opus.AsSpan(head + 10))) / 48000.0;
    }

    private static TakeReview Review(ResolvedExercise? asked = null, SimulatedTone? sung = null)
    {
        asked ??= ShippedExercises.Resolve("open-home-pair");
        IReadOnlyList<BrassVox.Analysis.AnalysisFrame> frames = SimulatedPlayer.Frames(asked, new SimulatedTone(), sung ?? new SimulatedTone());
        var judged = new JudgedTake(asked, 1, new RecordedTake([], 48000, 1.0), frames, TakeJudge.Judge(asked, frames, 1.0));
        return new TakeReview(
            TakeRecord.Of(judged, null, "a", "a.wav", LogRig.Monday, withFrames: true), asked, asked.Exercise.Cautions, TimeZoneInfo.Utc, Plan: "On the plan again: something.");
    }

    private static string Html(Player player, TakeReview review) => Handout.Html(player, [], "A sheet", null, [review]);
}
