using System.Globalization;
using System.Text;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Publishing.Pictures;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>One exercise of a handout: what to do, how it sounds, what the tones make, how to practise, lines to write on.</summary>
internal static class HandoutSheet
{
    private const int ResultantOrder = 3;
    private const double LowestToneHz = 20;

    // As wide as a sheet's text, on which its smallest words then are 8 points high.
    private const int PictureWidth = 760;
    private const int PictureHeight = 400;

    // Drawn in the size a phone shows it in, so that its words stay readable there.
    private const int NarrowWidth = 330;
    private const int NarrowHeight = 440;
    private const int LinesToWriteOn = 5;

    /// <summary>Appends the exercise.</summary>
    /// <param name="page">Where.</param>
    /// <param name="player">For whom.</param>
    /// <param name="item">The exercise.</param>
    /// <param name="number">Its place on the sheet, from 1.</param>
    public static void Append(StringBuilder page, Player player, HandoutItem item, int number)
    {
        Exercise exercise = item.Resolved.Exercise;
        IReadOnlyList<SheetBar> bars = SheetBar.Of(item.Resolved);
        page.Append(CultureInfo.InvariantCulture, $"<article aria-labelledby=\"e{number}\">\n<h2 id=\"e{number}\">{Words(NoteNames.Respelled(exercise.Name, player.NoteNames))}</h2>\n<p>{Words(NoteNames.Respelled(bars.Count > 0 ? OfPassage(item.Resolved) : exercise.About, player.NoteNames))}</p>\n");
        page.Append(CultureInfo.InvariantCulture, $"<p><strong>Listen for:</strong> {Words(NoteNames.Respelled(exercise.ListenFor, player.NoteNames))}</p>\n<h3>What to do</h3>\n");
        Asked(page, player, item.Resolved, bars);
        if (item.Notes.Svg is { } notes)
        {
            Figure(page, Encoding.UTF8.GetBytes(notes), $"Notes of {exercise.Name}; the same stand in the table above.", "Round heads: play; diamond heads: sing.");
        }
        else if (item.Notes.WhyNot is { } why)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>Notes {Words(why)}</p>\n");
        }

        Sound(page, item);
        Together(page, player, item.Resolved);
        Practise(page, player, item.Resolved);
        page.Append("</article>\n");
    }

    private static string OfPassage(ResolvedExercise resolved) => string.Create(
        CultureInfo.InvariantCulture, $"A passage for one player, one tone played and one sung. {resolved.Steps[0].Prompt} It lasts {resolved.TakeSeconds:0} seconds{(resolved.Stretch == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $" at {100 / resolved.Stretch:0} % of its tempo"))}.");

    private static void Asked(StringBuilder page, Player player, ResolvedExercise resolved, IReadOnlyList<SheetBar> bars)
    {
        foreach (string note in resolved.Notes)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>{Words(NoteNames.Respelled(note, player.NoteNames))}</p>\n");
        }

        if (bars.Count > 0)
        {
            Bars(page, player, resolved, bars);
            return;
        }

        page.Append("<table>\n<caption>Sounding notes (c: cents from equal temperament), and when they begin</caption>\n<thead><tr><th scope=\"col\">From</th><th scope=\"col\">Played</th><th scope=\"col\">Sung</th><th scope=\"col\">Step</th></tr></thead>\n<tbody>\n");
        for (int i = 0; i < resolved.Steps.Count; i++)
        {
            ExerciseStep step = resolved.Steps[i];
            var task = (PlayTask)step.Task;
            page.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<tr><td>{resolved.StepStartSeconds(i):0.#}&nbsp;s</td><td>{Path(task.Played, player)}</td><td>{Path(task.Sung, player)}</td><td>{Words(NoteNames.Respelled(step.Prompt, player.NoteNames))}</td></tr>\n"));
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static void Bars(StringBuilder page, Player player, ResolvedExercise resolved, IReadOnlyList<SheetBar> bars)
    {
        page.Append("<table>\n<caption>Sounding notes bar by bar (c: cents from equal temperament), and when each bar begins</caption>\n<thead><tr><th scope=\"col\">Bar</th><th scope=\"col\">From</th><th scope=\"col\">Played</th><th scope=\"col\">Sung</th></tr></thead>\n<tbody>\n");
        foreach (SheetBar bar in bars)
        {
            string Part(VoiceRole role)
            {
                string notes = Notes(bar.Begun(resolved, role), player);
                return !bar.IsHeldInto(resolved, role) ? notes.Length > 0 ? notes : "rest" : notes.Length > 0 ? $"(held), {notes}" : "(held)";
            }

            page.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<tr><th scope=\"row\">{bar.Number}</th><td>{bar.FromSeconds:0.#}&nbsp;s</td><td>{Part(VoiceRole.Played)}</td><td>{Part(VoiceRole.Sung)}</td></tr>\n"));
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static string Path(AskedPart? part, Player player) => part is null ? "rest" : Notes(part.Segments.Where(segment => segment.Move != Move.Rest), player);

    private static string Notes(IEnumerable<AskedSegment> segments, Player player)
    {
        IEnumerable<string> words = segments.Select(segment =>
        {
            // From equal temperament, as in the table of what the tones make, whatever the tuning.
            double equal = Cents.Between(EqualTemperament.FrequencyHz(segment.Note.MidiNumber, player.Profile.A4Hz), segment.ToHz);
            return $"{(segment.Move == Move.Glide ? "glide to " : "")}{Words(NoteNames.Of(segment.Note, player.NoteNames))}{Apart(equal)}";
        });
        return string.Join(", ", words);
    }

    private static string Apart(double cents) =>
        Math.Round(cents) == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"&nbsp;{cents:+0;-0}&nbsp;c");

    private static void Sound(StringBuilder page, HandoutItem item)
    {
        page.Append("<h3>How it sounds</h3>\n<p class=\"on-paper\">The sound is in the file this was printed from.</p>\n<ul class=\"sound\">\n");
        foreach (((_, string label, _), byte[] file) in HandoutSound.Heard.Zip(item.Sound.Files))
        {
            page.Append(CultureInfo.InvariantCulture, $"<li><span>{Words(label)}</span><audio controls preload=\"metadata\" aria-label=\"{Words($"{item.Resolved.Exercise.Name}: {label}")}\" src=\"data:audio/ogg;base64,{Convert.ToBase64String(file)}\"></audio></li>\n");
        }

        page.Append("</ul>\n");
    }

    private static void Together(StringBuilder page, Player player, ResolvedExercise resolved)
    {
        page.Append("<h3>What the two tones make</h3>\n");
        IReadOnlyList<SoundingPair> pairs = SoundingPair.Of(resolved);
        if (pairs.Count == 0)
        {
            page.Append("<p>Here the two tones are never held together, so no third one stands; what each is like alone is the point.</p>\n");
            return;
        }

        string tuning = NoteNames.Respelled(string.Create(CultureInfo.InvariantCulture, $"{resolved.Pair.Tuning.Name}, A4 {resolved.Pair.A4Hz:0.#} Hz"), player.NoteNames);
        page.Append("<p>P is the played tone, S the sung one. S-P is the difference tone: its Hz are those of S less those of P. 2P-S is twice P less S, P+S is both added. How loud they are depends on instrument, player and room.</p>\n");
        page.Append("<div class=\"made\">\n");
        if (pairs.Count == 1)
        {
            OnePair(page, player, pairs[0], tuning, resolved.Pair.A4Hz);
        }
        else
        {
            ManyPairs(page, player, pairs, SheetBar.Of(resolved), tuning, resolved.Pair.A4Hz);
        }

        // The picture moves S past one P; with several P it would show what is not asked.
        bool stays = pairs.All(pair => Math.Abs(Cents.Between(pair.PlayedHz, pairs[0].PlayedHz)) < 0.5);
        Picture Drawn(bool isNarrow) => ResultantChart.Of(pairs[0].PlayedHz, pairs[0].SungHz, ResultantOrder, resolved.Pair.A4Hz, player.NoteNames, isNarrow);
        if (stays && Drawn(isNarrow: false).ToSvg(PictureWidth, PictureHeight) is { } chart)
        {
            string played = NoteNames.Of(pairs[0].Played, player.NoteNames);
            string sung = NoteNames.Of(pairs[0].Sung, player.NoteNames);
            Figure(page, chart, $"Pitches of the resultants while the sung tone moves past {played}; in numbers for the asked notes in the table above.", $"The upright line marks {played} and {sung}.", Drawn(isNarrow: true).ToSvg(NarrowWidth, NarrowHeight));
        }

        page.Append("</div>\n");
    }

    private static void OnePair(StringBuilder page, Player player, SoundingPair pair, string tuning, double a4Hz)
    {
        string played = NoteNames.Of(pair.Played, player.NoteNames);
        string sung = NoteNames.Of(pair.Sung, player.NoteNames);
        page.Append(string.Create(
            CultureInfo.InvariantCulture,
            $"<table>\n<caption>What {Words(played)} played ({pair.PlayedHz:0.0} Hz) and {Words(sung)} sung ({pair.SungHz:0.0} Hz) make together; {Words(tuning)}</caption>\n"));
        page.Append("<thead><tr><th scope=\"col\">Made of</th><th scope=\"col\">Hz</th><th scope=\"col\">Nearest note</th><th scope=\"col\">Cents from it</th></tr></thead>\n<tbody>\n");
        foreach (Resultant line in Resultants.Of(pair.PlayedHz, pair.SungHz, ResultantOrder).Where(line => !line.IsHarmonic && line.FrequencyHz >= LowestToneHz))
        {
            NearestNote near = NearestNote.Of(line.FrequencyHz, a4Hz);
            page.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<tr><td>{Words(line.Name)}</td><td>{line.FrequencyHz:0.0}</td><td>{Words(NoteNames.Of(near.Note, player.NoteNames))}</td><td>{near.Cents:+0;-0;0}</td></tr>\n"));
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static void ManyPairs(StringBuilder page, Player player, IReadOnlyList<SoundingPair> pairs, IReadOnlyList<SheetBar> bars, string tuning, double a4Hz)
    {
        page.Append(CultureInfo.InvariantCulture, $"<table>\n<caption>What the asked pairs make, each where it first comes; {Words(tuning)}</caption>\n");
        page.Append(CultureInfo.InvariantCulture, $"<thead><tr>{(bars.Count > 0 ? "<th scope=\"col\">Bar</th>" : "")}<th scope=\"col\">Played</th><th scope=\"col\">Sung</th><th scope=\"col\">S less P<br><small>S-P</small></th><th scope=\"col\">Twice P less S<br><small>2P-S</small></th><th scope=\"col\">Both added<br><small>P+S</small></th></tr></thead>\n<tbody>\n");
        foreach (SoundingPair pair in pairs)
        {
            page.Append(bars.LastOrDefault(bar => bar.FromSeconds <= pair.FromSeconds + 1e-6) is { } bar
                ? string.Create(CultureInfo.InvariantCulture, $"<tr><td>{bar.Number}</td>") : "<tr>");
            foreach (double hz in (double[])[pair.PlayedHz, pair.SungHz, pair.SungHz - pair.PlayedHz, (2 * pair.PlayedHz) - pair.SungHz, pair.PlayedHz + pair.SungHz])
            {
                page.Append(CultureInfo.InvariantCulture, $"<td>{Tone(Math.Abs(hz), player, a4Hz)}</td>");
            }

            page.Append("</tr>\n");
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static string Tone(double hz, Player player, double a4Hz)
    {
        if (hz < 0.05)
        {
            return "none";
        }

        if (hz < LowestToneHz)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{hz:0.0}&nbsp;beats/s");
        }

        NearestNote near = NearestNote.Of(hz, a4Hz);
        return string.Create(CultureInfo.InvariantCulture, $"{Words(NoteNames.Of(near.Note, player.NoteNames))}{Apart(near.Cents)}<br><small>{hz:0.0}&nbsp;Hz</small>");
    }

    // The order of listening, one part, the other, both: common practice, no source.
    private static void Practise(StringBuilder page, Player player, ResolvedExercise resolved)
    {
        Dose dose = resolved.Exercise.Dose;
        string rest = dose.RestSeconds > 0 ? string.Create(CultureInfo.InvariantCulture, $" with {dose.RestSeconds:0} seconds of rest between") : "";
        string takes = string.Create(CultureInfo.InvariantCulture, $"{dose.Takes} {(dose.Takes == 1 ? "take" : "takes")}{rest}, {dose.Minutes:0.#} minutes in all; with {dose.Pass} of them as asked, {(resolved.WrittenBeats is null ? "go on to the next exercise" : "take it with less help, or faster")}.");
        page.Append("<div class=\"practise\">\n<h3>How to practise</h3>\n<ol>\n");
        page.Append("<li>Listen to both tones and to each alone, until you can hear each in your head.</li>\n");
        page.Append("<li>Play along with the sung tone, then sing along with the played one.</li>\n<li>Do it without sound.</li>\n");
        page.Append(CultureInfo.InvariantCulture, $"<li>{Words(takes)}</li>\n</ol>\n");
        IReadOnlyList<string> criteria = CriterionText.Lines(resolved.Steps.SelectMany(step => ((PlayTask)step.Task).Criteria), resolved.Profile.Aim);
        if (criteria.Count > 0)
        {
            string items = string.Concat(criteria.Select(line => $"<li>{Words(NoteNames.Respelled(line, player.NoteNames))}</li>\n"));
            page.Append(CultureInfo.InvariantCulture, $"<p><strong>As asked</strong> (c: cents, hundredths of a semitone):</p>\n<ul>\n{items}</ul>\n");
        }

        page.Append("</div>\n<div class=\"on-paper\">\n<h3>My takes</h3>\n<table class=\"lines\">\n<thead><tr><th scope=\"col\">No.</th><th scope=\"col\">Date</th><th scope=\"col\">Takes</th><th scope=\"col\">As asked</th><th scope=\"col\">What I heard and felt</th></tr></thead>\n<tbody>\n");
        for (int line = 1; line <= LinesToWriteOn; line++)
        {
            page.Append(CultureInfo.InvariantCulture, $"<tr><th scope=\"row\">{line}</th><td></td><td></td><td></td><td></td></tr>\n");
        }

        page.Append("</tbody>\n</table>\n</div>\n");
    }

    // As an image of its own: names inside one SVG cannot clash with those of another.
    internal static void Figure(StringBuilder page, byte[] svg, string description, string caption, byte[]? narrow = null)
    {
        string image = $"<img alt=\"{Words(description)}\" src=\"{Address(svg)}\">";
        string picture = narrow is null ? image : $"<picture><source media=\"{HandoutStyle.Narrow}\" srcset=\"{Address(narrow)}\">{image}</picture>";
        page.Append(CultureInfo.InvariantCulture, $"<figure>{picture}<figcaption>{Words(caption)}</figcaption></figure>\n");
    }

    private static string Address(byte[] svg) => $"data:image/svg+xml;base64,{Convert.ToBase64String(svg)}";

    private static string Words(string text) => Handout.Text(text);
}
