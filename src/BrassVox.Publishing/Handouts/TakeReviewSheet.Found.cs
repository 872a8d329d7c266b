using System.Globalization;
using System.Text;
using BrassVox.Analysis;
using BrassVox.Analysis.Reports;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Profiles;
using BrassVox.Practice.Takes;
using BrassVox.Publishing.Pictures;
using BrassVox.Theory;

namespace BrassVox.Publishing.Handouts;

/// <summary>What was found in the take: the pair, the course as a picture, findings, where a tone left its limits, notes.</summary>
internal static partial class TakeReviewSheet
{
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
        Picture Drawn(bool isNarrow) => TakeChart.Of("", frames, Path(VoiceRole.Played), Path(VoiceRole.Sung), limit, take.Player.A4Hz, player.NoteNames, bars, isNarrow);
        if (Drawn(isNarrow: false).ToSvg(PictureWidth, PictureHeight) is not { } svg || Drawn(isNarrow: true).ToSvg(NarrowWidth, NarrowHeight) is not { } narrow)
        {
            page.Append("<p>No font was found for the words of a picture; the figures stand in the tables.</p>\n");
            return;
        }

        string lines = asked is null
            ? "What was asked is not known any more; zero is the middle of each tone."
            : string.Create(CultureInfo.InvariantCulture, $"Dashed line: what was asked; dotted: {limit:0} c to either side{(Free(review).Length > 0 ? ", for the eye alone where no place is asked" : "")}.");
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
            page.Append(CultureInfo.InvariantCulture, $"<tr><td>{When(review.Asked, finding.StepId)}</td><td>{mark}</td><td>{Words(NoteNames.Respelled(finding.Text, player.NoteNames))}</td></tr>\n");
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

    private static IEnumerable<VoiceRole> Judged(TakeReview review) => new[] { review.Take.Result.Played, review.Take.Result.Sung }.OfType<JudgedTone>().Select(tone => tone.Role);

    /// <summary>Tones that were asked for, but not in which place.</summary>
    private static VoiceRole[] Free(TakeReview review) => [.. Judged(review).Where(role => !Departures.IsPlaceAsked(review.Asked, role))];

    private static void Left(StringBuilder page, TakeReview review, AnalysisFrame[] frames)
    {
        if (review.Asked is not { } asked || frames.Length == 0)
        {
            return;
        }

        VoiceRole[] free = Free(review);
        if (free.Length > 0)
        {
            string which = free.Length == 2 ? "Neither tone's place is" : $"The {Tone(free[0]).ToLowerInvariant()} tone's place is not";
            page.Append(CultureInfo.InvariantCulture, $"<p>{which} asked here: how far it lay from the drawn line is told in figures and picture, and is no fault.</p>\n");
        }

        // Of a tone whose middle is not told, as in fog, what is told are its turns.
        VoiceRole[] untold = [.. new[] { review.Take.Result.Played, review.Take.Result.Sung }.OfType<JudgedTone>().Where(tone => tone.OffsetCents is null).Select(tone => tone.Role)];
        (VoiceRole Role, double Limit)[] limits = [.. Judged(review).Except(free).Except(untold).Select(role => (role, Departures.LimitOf(asked, role, review.Take.Result.Aim)))];
        if (limits.Length == 0)
        {
            return;
        }

        Departure[] left = [.. limits.SelectMany(tone => Departures.Of(frames, asked, tone.Role, tone.Limit))];
        string within = limits[0].Limit == limits[^1].Limit
            ? string.Create(CultureInfo.InvariantCulture, $"{limits[0].Limit:0} c")
            : string.Create(CultureInfo.InvariantCulture, $"{limits[0].Limit:0} c played, {limits[^1].Limit:0} c sung");
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
}
