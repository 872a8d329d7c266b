using System.Globalization;
using System.Text;
using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Sessions;
using BrassVox.Practice.Takes;
using BrassVox.Publishing.Pictures;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>The review of one take: what it was, both tones over what was asked, what was found and when, its sound, what to do next.</summary>
internal static class TakeReviewSheet
{
    // As wide as a screen's or a sheet's text; the narrow one keeps its words readable on a phone.
    private const int PictureWidth = 760;
    private const int PictureHeight = 500;
    private const int NarrowWidth = 520;
    private const int NarrowHeight = 680;
    private const double OnTimeSeconds = 0.05;
    private const int MostDepartures = 8;
    private const double LeastMovedCents = 60;
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
        page.Append(CultureInfo.InvariantCulture, $"<article class=\"take\" aria-labelledby=\"t{number}\">\n<h2 id=\"t{number}\">{Words(HandoutSheet.Respelled(review.Title, player.NoteNames))}</h2>\n");
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
        string tuning = string.Create(CultureInfo.InvariantCulture, $"{take.Tuning}, {HandoutSheet.Respelled("A4", player.NoteNames)} {take.Player.A4Hz:0.##} Hz");
        page.Append(string.Create(
            CultureInfo.InvariantCulture,
            $"<p>{review.At:dddd}. {Words(Asked(review, player))}; {Words(tuning)}. {Words(Written(take, player))}Aim {take.Result.Aim}.</p>\n"));
        if (take.IsSimulated)
        {
            page.Append("<p><strong>This take is simulated: nobody played it.</strong></p>\n");
        }

        foreach (string note in take.Notes)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>{Words(HandoutSheet.Respelled(note, player.NoteNames))}</p>\n");
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
            return take.ExerciseNumber == 0 ? $"A passage; its first pair: {pair}" : pairs > 1 ? string.Create(CultureInfo.InvariantCulture, $"The first of {pairs} pairs: {pair}") : pair;
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
        var part = SheetItem.PartFor(player with { Profile = take.Player });
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
                $"<tr><th scope=\"row\">{Tone(tone.Role)}</th><td>{Signed(tone.OffsetCents)}</td><td>{Plain(tone.SpreadCents, "c")}{vibrato}</td><td>{Signed(tone.DriftCents)}</td><td>{Began(tone, review.Asked)}</td><td>{Told(tone, review.Asked, frames)}</td></tr>\n"));
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
        (null, _) => "Nothing could be told of this take.",
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

    private static IEnumerable<string> Together(JudgedPair pair)
    {
        if (pair.IntervalErrorCents is { } error)
        {
            yield return Math.Abs(error) < 0.5 ? "The interval was as wide as asked." : string.Create(CultureInfo.InvariantCulture, $"The interval was {Math.Abs(error):0} c {(error > 0 ? "wide" : "narrow")}.");
        }

        if (pair.StillSeconds > pair.BeatingSeconds)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"The pair stood still ({JudgedPair.StillMeans(pair.StillBelowPerSecond)}) for {pair.StillSeconds:0.0} s.");
        }
        else if (pair.MedianBeatsPerSecond is { } rate)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"Half of the time it beat faster than {rate:0.0} times a second.");
        }

        if (pair.FogSeconds > LeastSeconds)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"For {pair.FogSeconds:0.0} s the two could not be told apart; there beats are judged, not cents.");
        }
    }

    /// <summary>How far the tone that was to hold was drawn along, step by step where only the other was to move.</summary>
    private static IEnumerable<string> Pulls(TakeReview review, AnalysisFrame[] frames)
    {
        for (int i = 0; i < (review.Asked?.Steps.Count ?? 0); i++)
        {
            ExerciseStep step = review.Asked!.Steps[i];
            if (step.Task is not PlayTask { Played: { } played, Sung: { } sung } || played.Moves == sung.Moves)
            {
                continue;
            }

            VoiceRole moving = played.Moves ? VoiceRole.Played : VoiceRole.Sung;
            double from = review.Asked.StepStartSeconds(i);
            AnalysisFrame[] during = [.. frames.Where(frame => frame.CentreSeconds >= from && frame.CentreSeconds < from + step.DurationSeconds)];
            if (Pull.Of(during, moving) is { MovedCents: >= LeastMovedCents } pull)
            {
                string held = moving == VoiceRole.Played ? "sung" : "played";
                string way = Math.Abs(pull.CentsPerSemitone) < 0.5 ? "was not drawn along"
                    : string.Create(CultureInfo.InvariantCulture, $"was {(pull.CentsPerSemitone > 0 ? "drawn along" : "pushed the other way")} by {Math.Abs(pull.CentsPerSemitone):0.0} c a semitone");
                yield return string.Create(CultureInfo.InvariantCulture, $"Pull: while the {Tone(moving).ToLowerInvariant()} tone moved ({pull.MovedCents:0} c), the {held} tone {way}.");
            }
        }
    }

    private static void Picture(StringBuilder page, Player player, TakeReview review, AnalysisFrame[] frames)
    {
        TakeRecord take = review.Take;
        if (frames.Length == 0)
        {
            page.Append(review.IsTrusted ? "<p>Of this take only figures were kept, not its course: there is no picture of it.</p>\n" : "");
            return;
        }

        ResolvedExercise? asked = review.Asked;
        Func<double, double?>? Path(VoiceRole role) => asked is null ? null : seconds => asked.AskedHz(role, seconds);
        double limit = Math.Max(Departures.LimitOf(asked, VoiceRole.Played, take.Result.Aim), Departures.LimitOf(asked, VoiceRole.Sung, take.Result.Aim));
        (int Number, double FromSeconds)[] bars = asked is null ? [] : [.. SheetBar.Of(asked).Select(bar => (bar.Number, bar.FromSeconds))];
        Picture chart = TakeChart.Of("", frames, Path(VoiceRole.Played), Path(VoiceRole.Sung), limit, take.Player.A4Hz, player.NoteNames, bars);
        if (chart.ToSvg(PictureWidth, PictureHeight) is not { } svg || chart.ToSvg(NarrowWidth, NarrowHeight) is not { } narrow)
        {
            page.Append("<p>No font was found for the words of a picture; the figures stand in the tables.</p>\n");
            return;
        }

        string lines = asked is null
            ? "What was asked is not known any more; zero is the middle of each tone."
            : string.Create(CultureInfo.InvariantCulture, $"Dashed line: what was asked; dotted: {limit:0} c to either side.");
        if (asked is not null && new[] { VoiceRole.Played, VoiceRole.Sung }.Any(role => TakeChart.Leaps(frames, seconds => asked.AskedHz(role, seconds))))
        {
            lines += string.Create(CultureInfo.InvariantCulture, $" Notes that follow one another are drawn each about its own place; what lies over {TakeChart.ReachCents(limit):0} c off, as between two notes, is not drawn.{(bars.Length > 0 ? " Upright lines: bars, with their numbers." : "")}");
        }

        if (new[] { take.Result.Played, take.Result.Sung }.Any(tone => tone?.VibratoCents is not null))
        {
            lines += " Each point tells of a sixth of a second: a vibrato looks narrower than it is.";
        }

        HandoutSheet.Figure(
            page, svg,
            $"Course of the take in {frames[^1].CentreSeconds.ToString("0", CultureInfo.InvariantCulture)} seconds, in three parts above one another: the played tone, the sung tone, each in cents about what was asked, and the beats a second. In words: {Plainly(take.Result)}",
            $"Squares: played; discs: sung; diamonds: beats a second. {lines} Shaded: the two cannot be told apart.", narrow);
    }

    private static string Plainly(TakeResult result) => string.Join(" ", new[] { result.Played, result.Sung }.OfType<JudgedTone>().Select(tone => tone.OffsetCents is { } cents
        ? string.Create(CultureInfo.InvariantCulture, $"{Tone(tone.Role)} tone {cents:+0;-0;0} c from what was asked, wandering {tone.SpreadCents ?? 0:0} c, drifting {tone.DriftCents ?? 0:+0;-0;0} c.")
        : $"{Tone(tone.Role)} tone not told.").Concat(Together(result.Pair)));

    private static void Found(StringBuilder page, Player player, TakeReview review)
    {
        IReadOnlyList<Finding> findings = review.Take.Result.Findings;
        if (findings.Count == 0)
        {
            return;
        }

        page.Append("<h3>What was found</h3>\n<table>\n<caption>Each thing that was asked, when in the take, and what came of it</caption>\n<thead><tr><th scope=\"col\">Asked in</th><th scope=\"col\">As asked</th><th scope=\"col\">Found</th></tr></thead>\n<tbody>\n");
        foreach (Finding finding in review.IsTrusted ? findings : findings.Where(finding => finding.Fault == Fault.Bleed))
        {
            string mark = finding.Verdict switch { Verdict.Met => "yes", Verdict.Missed => "<strong>no</strong>", _ => "not told" };
            page.Append(CultureInfo.InvariantCulture, $"<tr><td>{When(review.Asked, finding.StepId)}</td><td>{mark}</td><td>{Words(HandoutSheet.Respelled(finding.Text, player.NoteNames))}</td></tr>\n");
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static string When(ResolvedExercise? asked, string stepId)
    {
        int index = asked?.Steps.ToList().FindIndex(step => step.Id == stepId) ?? -1;
        if (index < 0)
        {
            return "throughout";
        }

        double from = asked!.StepStartSeconds(index);
        return string.Create(CultureInfo.InvariantCulture, $"{from:0.#}&nbsp;to&nbsp;{from + asked.Steps[index].DurationSeconds:0.#}&nbsp;s");
    }

    private static void Left(StringBuilder page, TakeReview review, AnalysisFrame[] frames)
    {
        if (review.Asked is not { } asked || frames.Length == 0)
        {
            return;
        }

        (VoiceRole Role, double Limit)[] limits = [.. new[] { VoiceRole.Played, VoiceRole.Sung }.Select(role => (role, Departures.LimitOf(asked, role, review.Take.Result.Aim)))];
        Departure[] left = [.. limits.SelectMany(tone => Departures.Of(frames, asked, tone.Role, tone.Limit))];
        string within = limits[0].Limit == limits[1].Limit
            ? string.Create(CultureInfo.InvariantCulture, $"{limits[0].Limit:0} c")
            : string.Create(CultureInfo.InvariantCulture, $"{limits[0].Limit:0} c played, {limits[1].Limit:0} c sung");
        if (left.Length == 0)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>Where a tone could be told it never left its place ({within}) for longer than a moment.</p>\n");
            return;
        }

        // The longest, in the order in which they came.
        Departure[] told = [.. left.OrderByDescending(one => one.ToSeconds - one.FromSeconds).Take(MostDepartures).OrderBy(one => one.FromSeconds)];
        string more = left.Length > told.Length ? string.Create(CultureInfo.InvariantCulture, $"; {left.Length - told.Length} shorter ones are left out") : "";
        page.Append(string.Create(
            CultureInfo.InvariantCulture,
            $"<table>\n<caption>Where a tone left its place by more than {within} for {Departures.ShortestSeconds:0.0} s and longer{more}</caption>\n<thead><tr><th scope=\"col\">From</th><th scope=\"col\">To</th><th scope=\"col\">Tone</th><th scope=\"col\">At most</th></tr></thead>\n<tbody>\n"));
        foreach (Departure one in told)
        {
            page.Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<tr><td>{Math.Max(0, one.FromSeconds):0.0}&nbsp;s</td><td>{one.ToSeconds:0.0}&nbsp;s</td><td>{Tone(one.Role).ToLowerInvariant()}</td><td>{Math.Abs(one.FurthestCents):0}&nbsp;c {(one.FurthestCents > 0 ? "high" : "low")}</td></tr>\n"));
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static void Notes(StringBuilder page, Player player, IReadOnlyList<NoteResult> notes)
    {
        if (notes.Count == 0)
        {
            return;
        }

        page.Append("<table class=\"notes\">\n<caption>Note by note: bar and beat, cents from what was asked, seconds late</caption>\n<thead><tr><th scope=\"col\">At</th><th scope=\"col\">Tone</th><th scope=\"col\">Note</th><th scope=\"col\">Cents</th><th scope=\"col\">Late (-: early)</th><th scope=\"col\">As asked</th></tr></thead>\n<tbody>\n");
        foreach (NoteResult note in notes.OrderBy(note => note.AskedSeconds).ThenBy(note => note.Role))
        {
            string pitch = note switch
            {
                { Cents: { } cents } => Signed(cents),
                { IsFog: true, BeatsPerSecond: { } rate } => string.Create(CultureInfo.InvariantCulture, $"{rate:0.0}&nbsp;beats/s"),
                { IsFog: true } => "not told apart",
                _ => "not found",
            };
            string late = note.LateSeconds is { } seconds ? string.Create(CultureInfo.InvariantCulture, $"{seconds:+0.00;-0.00;0.00}&nbsp;s") : "not told";
            string mark = note.IsAsAsked switch { true => "yes", false => "<strong>no</strong>", _ => "not told" };
            page.Append(CultureInfo.InvariantCulture, $"<tr><td>{Words(note.Label)}</td><td>{(note.Role == VoiceRole.Played ? "P" : "S")}</td><td>{Words(Name(note.Note, player))}</td><td>{pitch}</td><td>{late}</td><td>{mark}</td></tr>\n");
        }

        page.Append("</tbody>\n</table>\n");
    }

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
            page.Append(CultureInfo.InvariantCulture, $"<h3>What you said, and what was measured</h3>\n<ul>\n{string.Concat(lines.Select(line => $"<li>{Words(HandoutSheet.Respelled(line, player.NoteNames))}</li>\n"))}</ul>\n");
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
        page.Append(CultureInfo.InvariantCulture, $"<div class=\"practise\">\n<h3>What to do next</h3>\n<p><strong>{Words(HandoutSheet.Respelled(review.Take.Result.Next, player.NoteNames))}</strong></p>\n");
        page.Append(review.Plan is { } plan ? $"<p>{Words(HandoutSheet.Respelled(plan, player.NoteNames))}</p>\n" : "");
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
