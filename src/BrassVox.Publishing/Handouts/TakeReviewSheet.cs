using System.Globalization;
using System.Text;
using BrassVox.Analysis;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>The review of one take: what it was, both tones over what was asked, what was found and when, its sound, what to do next.</summary>
internal static partial class TakeReviewSheet
{
    // As wide as a screen's or a sheet's text; the narrow one is drawn in the size a phone shows it in, so that its words stay readable there.
    private const int PictureWidth = 760;
    private const int PictureHeight = 500;
    private const int NarrowWidth = 330;
    private const int NarrowHeight = 560;
    private const double OnTimeSeconds = 0.05;
    private const int MostDepartures = 8;
    private const double LeastMovedCents = 45;
    private const double LeastSeconds = 0.05;
    private const double LongestHalfWindow = 0.1;
    private const int LinesToWriteOn = 4;

    /// <summary>Appends the review.</summary>
    /// <param name="page">Where.</param>
    /// <param name="player">For whom.</param>
    /// <param name="review">The take.</param>
    /// <param name="number">Its place among the takes of the sheet, from 1.</param>
    public static void Append(StringBuilder page, Player player, TakeReview review, int number)
    {
        TakeRecord take = review.Take;
        double end = review.Asked?.TakeSeconds + TakeSound.RingsOnSeconds ?? double.PositiveInfinity;
        AnalysisFrame[] frames = review.IsTrusted
            ? [.. take.Frames.Select(frame => frame.ToAnalysis(take.SampleRateHz, take.StartSeconds)).Where(frame => frame.CentreSeconds >= -LongestHalfWindow && frame.CentreSeconds < end)]
            : [];
        page.Append(CultureInfo.InvariantCulture, $"<article class=\"take\" aria-labelledby=\"t{number}\">\n<h2 id=\"t{number}\">{Words(NoteNames.Respelled(review.Title, player.NoteNames))}</h2>\n");
        What(page, player, review);
        HowItWent(page, player, review, frames);
        Picture(page, player, review, frames);
        Found(page, player, review);
        Left(page, review, frames);
        Notes(page, player, take.Result.Notes);
        Said(page, player, review);
        Sound(page, review, number);
        Next(page, player, review);
        page.Append("</article>\n");
    }

    private static void What(StringBuilder page, Player player, TakeReview review)
    {
        TakeRecord take = review.Take;
        string tuning = string.Create(CultureInfo.InvariantCulture, $"{take.Tuning}, {NoteNames.Respelled("A4", player.NoteNames)} {take.Player.A4Hz:0.##} Hz");
        page.Append(string.Create(
            CultureInfo.InvariantCulture,
            $"<p>{review.At:dddd}. {Words(Asked(review, player))}; {Words(tuning)}. {Words(Written(take, player))}Aim {take.Result.Aim}.</p>\n"));
        if (take.IsSimulated)
        {
            page.Append("<p><strong>This take is simulated: nobody played it.</strong></p>\n");
        }

        foreach (string note in take.Notes)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>{Words(NoteNames.Respelled(note, player.NoteNames))}</p>\n");
        }
    }

    private static string Asked(TakeReview review, Player player)
    {
        TakeRecord take = review.Take;
        string pair = string.Create(
            CultureInfo.InvariantCulture,
            $"{Name(take.Played, player)} played ({take.PlayedHz:0.0} Hz), {Name(take.Sung, player)} sung ({take.SungHz:0.0} Hz): {IntervalName.Of(Cents.Between(take.PlayedHz, take.SungHz))}{(take.SungHz < take.PlayedHz && take.Sung.MidiNumber < take.Played.MidiNumber ? " below" : "")}");
        if (take.ExerciseNumber > 0 || review.Asked is not { } asked)
        {
            int pairs = review.Asked is null ? 1 : SoundingPair.Of(review.Asked).Count;
            return take.IsOfPassage ? $"A passage; its first pair: {pair}" : pairs > 1 ? string.Create(CultureInfo.InvariantCulture, $"The first of {pairs} pairs: {pair}") : pair;
        }

        string[] ranges = [.. new[] { VoiceRole.Played, VoiceRole.Sung }.Select(role => Range(asked, role, player)).OfType<string>()];
        return $"{asked.Steps[0].Prompt.TrimEnd('.')}: {string.Join(", ", ranges)}";
    }

    private static string? Range(ResolvedExercise asked, VoiceRole role, Player player)
    {
        Pitch[] notes =
        [
            .. asked.Steps.Select(step => step.Task).OfType<PlayTask>().SelectMany(task => (role == VoiceRole.Played ? task.Played : task.Sung)?.Segments ?? [])
                .Where(segment => segment.Move != Move.Rest).Select(segment => segment.Note).OrderBy(note => note.MidiNumber),
        ];
        return notes.Length == 0 ? null : string.Create(CultureInfo.InvariantCulture, $"{notes.Length} notes {Tone(role).ToLowerInvariant()}, {Name(notes[0], player)} to {Name(notes[^1], player)}");
    }

    private static string Written(TakeRecord take, Player player)
    {
        var part = SheetItem.PartFor(player.With(take.Player));
        return part.IsTransposed && take.ExerciseNumber > 0 ? $"In the part, {part.Key}: {Name(part.Written(take.Played), player)} and {Name(part.Written(take.Sung), player)}. " : "";
    }

    private static void HowItWent(StringBuilder page, Player player, TakeReview review, AnalysisFrame[] frames)
    {
        TakeResult result = review.Take.Result;
        page.Append(CultureInfo.InvariantCulture, $"<h3>How it went</h3>\n<p><strong>{Words(Summary(result))}</strong></p>\n");
        if (review.Take.Drone is { Bleeds: true } drone)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>{Words(Drone(drone))}</p>\n");
        }

        if (!review.IsTrusted)
        {
            return;
        }

        JudgedTone[] tones = [.. new[] { result.Played, result.Sung }.OfType<JudgedTone>()];
        page.Append("<table>\n<caption>Each tone against what was asked (c: cents; vibrato is no fault and stands apart; told: for how long of what was asked its pitch could be told)</caption>\n<thead><tr><th scope=\"col\">Tone</th><th scope=\"col\">Off by</th><th scope=\"col\">Wanders</th><th scope=\"col\">Drifts</th><th scope=\"col\">Began</th><th scope=\"col\">Told</th></tr></thead>\n<tbody>\n");
        foreach (JudgedTone tone in tones)
        {
            string vibrato = tone is { VibratoCents: { } width, VibratoPerSecond: { } rate }
                ? string.Create(CultureInfo.InvariantCulture, $"<br><small>vibrato {width:0} c each way, {rate:0.0} a second</small>") : "";
            page.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<tr><th scope=\"row\">{Tone(tone.Role)}{(Departures.IsPlaceAsked(review.Asked, tone.Role) ? "" : "<br><small>place not asked</small>")}</th><td>{Signed(tone.OffsetCents)}</td><td>{Plain(tone.SpreadCents, "c")}{vibrato}</td><td>{Signed(tone.DriftCents)}</td><td>{Began(tone, review.Asked)}</td><td>{Told(tone, review.Asked, frames)}</td></tr>\n"));
        }

        page.Append("</tbody>\n</table>\n");
        string pair = string.Join(" ", Together(result.Pair).Concat(Pulls(review, frames)));
        page.Append(pair.Length > 0 ? $"<p>{Words(pair)}</p>\n" : "");
        if (review.Cell is { } trend)
        {
            string so = string.Create(
                CultureInfo.InvariantCulture, $"In your takes so far: {trend.Cell.Words(player.NoteNames)}, the median of {trend.Cell.Takes} {(trend.Cell.Takes == 1 ? "take" : "takes")}.");
            page.Append(CultureInfo.InvariantCulture, $"<p>{Words($"{so} {TakesSoFar.Weeks(trend)}".TrimEnd())}</p>\n");
        }
    }

    /// <summary>When a tone began against when it was asked: the clock of a take says nothing of it where a tone is asked for later.</summary>
    private static string Began(JudgedTone tone, ResolvedExercise? asked)
    {
        if (tone.OnsetSeconds is not { } onset)
        {
            return "not told";
        }

        if (asked is null)
        {
            return string.Create(CultureInfo.InvariantCulture, $"{onset:0.0}&nbsp;s into the take");
        }

        double from = asked.Steps
            .Select((step, i) => (Start: asked.StepStartSeconds(i), Part: step.Task is PlayTask task ? tone.Role == VoiceRole.Played ? task.Played : task.Sung : null))
            .SelectMany(step => (step.Part?.Segments ?? []).Where(segment => segment.Move != Move.Rest).Select(segment => step.Start + segment.FromSeconds))
            .DefaultIfEmpty(0).Min();
        double late = onset - from;
        string when = Math.Abs(late) < OnTimeSeconds ? "on time" : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(late):0.0}&nbsp;s {(late > 0 ? "late" : "early")}");
        return from < OnTimeSeconds ? when : string.Create(CultureInfo.InvariantCulture, $"{when}<br><small>asked at {from:0.0}&nbsp;s</small>");
    }

    private static string Told(JudgedTone tone, ResolvedExercise? asked, AnalysisFrame[] frames)
    {
        double hop = frames.Length > 1 ? frames[1].CentreSeconds - frames[0].CentreSeconds : 0;
        double? told = tone.ToldSeconds ?? (asked is null || frames.Length == 0 ? null
            : hop * frames.Count(frame => (tone.Role == VoiceRole.Played ? frame.Played : frame.Sung) is not null && asked.AskedHz(tone.Role, frame.CentreSeconds) is not null));
        if (told is not { } seconds)
        {
            return string.Create(CultureInfo.InvariantCulture, $"heard {tone.HeardSeconds:0.0} of {tone.AskedSeconds:0.0}&nbsp;s");
        }

        double fog = tone.HeardSeconds - seconds;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{Math.Min(seconds, tone.AskedSeconds):0.0} of {tone.AskedSeconds:0.0}&nbsp;s{(fog > 2 * LeastSeconds ? string.Create(CultureInfo.InvariantCulture, $"<br><small>{fog:0.0}&nbsp;s more not told from the other</small>") : "")}");
    }

    private static string Summary(TakeResult result) => (result.AsAsked, result.Reached) switch
    {
        (null, _) => result.Findings.Any(finding => finding.Verdict == Verdict.Met) ? "This take could not be judged." : "Nothing could be told of this take.",
        (true, _) when result.IsOctaveUntold => "As asked, but the octave cannot be told.",
        (true, { } grade) => $"As asked; grade {grade} reached.",
        (true, null) => "As asked.",
        (false, { } grade) => $"Not yet as asked; grade {grade} reached.",
        _ => "Not yet as asked.",
    } + (result.BestSecond is { } best && result.Findings.All(finding => finding.Fault != Fault.Bleed || finding.Verdict != Verdict.Missed)
        ? string.Create(CultureInfo.InvariantCulture, $" Best second: {best.FromSeconds:0.0} to {best.ToSeconds:0.0} s.") : "");

    private static string Drone(DroneInTake drone) => drone.AloneSeconds is { } alone
        ? string.Create(CultureInfo.InvariantCulture, $"The program's own sound bled into the microphone and could not be taken out: judged is what came after it had left, {alone:0.0} of {drone.AskedSeconds:0.0} s.")
        : drone.IsTrusted
            ? "The program's own sound bled into the microphone; it was taken out before measuring. Headphones are surer."
            : "The program's own sound bled into the microphone and could not be taken out: no figure of this take can be told from it.";

    private static void Said(StringBuilder page, Player player, TakeReview review)
    {
        TakeRecord take = review.Take;
        List<string> lines = [];
        if (review.IsTrusted && take.Expected is { } expected && Predictions.Compare(expected, take.Result, take.SungHz) is var check)
        {
            lines.Add($"You {check.Said}: {(check.IsRight == true ? "yes, " : "")}{check.Measured}.");
        }

        if (review.IsTrusted && take.Said is { } said)
        {
            lines.AddRange(Sayings.Compare(said, take.Result).Select(one => $"You said \"{one.Said}\": {(one.IsRight == true ? "yes, " : "")}{one.Measured}."));
        }

        lines.AddRange(review.IsTrusted ? take.Result.DroneComparisons.Select(tone => string.Create(
            CultureInfo.InvariantCulture,
            $"{Tone(tone.Role)} tone: {tone.WithCents:+0;-0;0} c while the drone sounded, {tone.WithoutCents:+0;-0;0} c in silence{(tone.Leans ? ": you lean on it" : "")}.")) : []);
        if (lines.Count > 0)
        {
            page.Append(CultureInfo.InvariantCulture, $"<h3>What you said, and what was measured</h3>\n<ul>\n{string.Concat(lines.Select(line => $"<li>{Words(NoteNames.Respelled(line, player.NoteNames))}</li>\n"))}</ul>\n");
        }
    }

    private static void Sound(StringBuilder page, TakeReview review, int number)
    {
        if (review.Sound is { } file)
        {
            page.Append("<h3>How it sounded</h3>\n<p class=\"on-paper\">The sound is in the file this was printed from.</p>\n<ul class=\"sound\">\n");
            page.Append(CultureInfo.InvariantCulture, $"<li><span>The take as the microphone heard it, second 0 of the picture first</span><audio controls preload=\"metadata\" aria-label=\"{Words($"Take {number}: {review.Title}")}\" src=\"data:audio/ogg;base64,{Convert.ToBase64String(file)}\"></audio></li>\n{(review.Take.IsSimulated ? "" : "<li>This file holds the sound of a person. Hand it on only where that person agrees.</li>\n")}</ul>\n");
        }
    }

    private static void Next(StringBuilder page, Player player, TakeReview review)
    {
        page.Append(CultureInfo.InvariantCulture, $"<div class=\"practise\">\n<h3>What to do next</h3>\n<p><strong>{Words(NoteNames.Respelled(review.Take.Result.Next, player.NoteNames))}</strong></p>\n");
        page.Append(review.Plan is { } plan ? $"<p>{Words(NoteNames.Respelled(plan, player.NoteNames))}</p>\n" : "");
        page.Append("</div>\n<div class=\"on-paper\">\n<h3>What I hear in it</h3>\n<table class=\"lines\">\n<thead><tr><th scope=\"col\">At</th><th scope=\"col\">What I hear</th></tr></thead>\n<tbody>\n");
        for (int line = 0; line < LinesToWriteOn; line++)
        {
            page.Append("<tr><td></td><td></td></tr>\n");
        }

        page.Append("</tbody>\n</table>\n</div>\n");
    }

    private static string Tone(VoiceRole role) => role == VoiceRole.Played ? "Played" : "Sung";

    private static string Name(Pitch note, Player player) => NoteNames.Of(note, player.NoteNames);

    private static string Signed(double? cents) => cents is { } told ? string.Create(CultureInfo.InvariantCulture, $"{told:+0;-0;0}&nbsp;c") : "not told";

    private static string Plain(double? value, string unit, string format = "0") => value is { } told ? $"{told.ToString(format, CultureInfo.InvariantCulture)}&nbsp;{unit}" : "not told";

    private static string Words(string text) => Handout.Text(text);
}
