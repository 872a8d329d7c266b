using System.Globalization;
using BrassVox.Analysis;
using BrassVox.App.Tui.Drawing;
using BrassVox.App.Tui.Pictures;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Log;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;

namespace BrassVox.App.Tui.Rooms;

/// <summary>The reveal: the player's own words beside the measurement, one breath, one thing to do next.</summary>
internal static class RevealView
{
    private const int LaneLeft = 28;
    private const int LaneRight = 6;
    private const int LaneRows = 5;
    private const int UnrestWidth = LaneLeft - 3;
    private const int RuleRow = 17;
    private const int RuleFrom = 26;
    private const int SureRow = 8;
    private const int MostColumnsPerSecond = 20;

    // Beats whose course lies nearer than this to one rate are told as that rate.
    private const double SameRate = 0.5;

    /// <summary>Draws rows 2 to the one above the message.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="stand">The stand, for names.</param>
    /// <param name="judged">The take.</param>
    /// <param name="said">What the player said of it; null when nothing.</param>
    /// <param name="sure">How often being so sure was right; null when it is not known.</param>
    /// <param name="body">Where the body was noticed, in words; empty for nothing.</param>
    public static void Draw(Canvas canvas, MusicStand stand, JudgedTake judged, Saying? said, SurenessFigure? sure = null, string body = "")
    {
        // Where the drone could not be taken out no figure is the player's: none is shown, also of takes kept before figures were left out.
        if (judged.Drone is { IsTrusted: false })
        {
            judged = judged with { Frames = [], Expected = null, Result = Unknown(judged.Result) };
        }

        TakeResult result = judged.Result;
        IReadOnlyList<SayingCheck> checks = said is null ? [] : Sayings.Compare(said, result);
        int columns = canvas.Width - LaneLeft - LaneRight;
        BreathLine line = Line(judged, columns, judged.Exercise.TakeSeconds);
        // The dots of what was asked end where the take ends.
        columns = Math.Min(columns, (int)Math.Ceiling(judged.Exercise.TakeSeconds * line.ColumnsPerSecond));
        DrawTone(canvas, 2, stand, VoiceRole.Played, judged.Exercise.Pair.Played, result.Played, checks, line, columns, result.Pair.FogSeconds);
        canvas.Write(0, 9, $"BEATS  {BeatsInShort(judged)}");
        BreathPanel.DrawBeats(canvas, LaneLeft, 9, columns, line);
        DrawTone(canvas, 10, stand, VoiceRole.Sung, judged.Exercise.Pair.Sung, result.Sung, checks, line, columns, result.Pair.FogSeconds);
        DrawAxis(canvas, LaneLeft, 16, line, columns, judged.Exercise.TakeSeconds);
        // A low window has no row to spare for a rule: all that was said stands there.
        bool isLow = canvas.Height < RuleFrom;
        if (!isLow)
        {
            canvas.Rule(RuleRow);
        }

        DrawWords(canvas, isLow ? RuleRow : RuleRow + 1, judged, checks, body);
        canvas.Write(LaneLeft, SureRow, sure is null ? "" : $"YOU WERE  {sure.Words}");
    }

    private static TakeResult Unknown(TakeResult result) => result with
    {
        Played = Unknown(result.Played),
        Sung = Unknown(result.Sung),
        Pair = new JudgedPair(null, 0, 0, null, 0, 0),
        Findings = [.. result.Findings.Where(finding => finding.Fault == Fault.Bleed)],
        BestSecond = null,
        DroneComparisons = [],
        Notes = [],
    };

    private static JudgedTone? Unknown(JudgedTone? tone) =>
        tone is null ? null : tone with { OffsetCents = null, SpreadCents = null, DriftCents = null, VibratoPerSecond = null, VibratoCents = null };

    private static (double Low, double High)? Course(JudgedTake judged) => judged.Result.Pair.MedianBeatsPerSecond is null
        ? null
        : PairBeats.Course(judged.Frames, judged.Recorded.StartSeconds, judged.Recorded.StartSeconds + judged.Exercise.TakeSeconds);

    /// <summary>How a take beat, in at most 20 characters: the rate of the two centres and how far it went as they moved; without centres from where to where.</summary>
    /// <param name="judged">The take.</param>
    internal static string BeatsInShort(JudgedTake judged) => (PairBeats.OfCentres(judged.Exercise, judged.Result), Course(judged), judged.Result.Pair.MedianBeatsPerSecond) switch
    {
        ({ } centres, { } course, _) when course.High - centres >= SameRate => $"{PairPicture.Rate(centres)} /s, up to {PairPicture.Rate(course.High)} /s",
        ({ } centres, _, not null) => $"{PairPicture.Rate(centres)} /s",
        (_, { } course, _) when course.High - course.Low >= SameRate => $"{PairPicture.Rate(course.Low)} to {PairPicture.Rate(course.High)} /s",
        (_, _, { } median) => $"{PairPicture.Rate(median)} /s",
        _ => "not known",
    };

    // Two figures that seem to gainsay one another, slow centres and fast beats, want the sentence that joins them.
    private static IEnumerable<string> BeatsInFull(JudgedTake judged) => (PairBeats.OfCentres(judged.Exercise, judged.Result), Course(judged), judged.Result.Pair.MedianBeatsPerSecond) switch
    {
        ({ } centres, { } course, { } median) when course.High - centres >= SameRate =>
            [$"BEATS  both at their centres would beat {PairPicture.Rate(centres)} /s; as they moved it was over {PairPicture.Rate(median)} half the time, up to {PairPicture.Rate(course.High)}"],
        (null, { } course, { } median) when course.High - course.Low >= SameRate =>
            [$"BEATS  mostly from {PairPicture.Rate(course.Low)} to {PairPicture.Rate(course.High)} /s, half the time over {PairPicture.Rate(median)}"],
        _ => [],
    };

    // What bled in is called a drone only where one sounded during the take.
    private static string DroneWords(DroneInTake drone, bool hasDrone)
    {
        string what = hasDrone ? "DRONE  " : "BLEED  what sounded before the take, or a tone like it, ";
        return drone.AloneSeconds is { } alone
            ? string.Create(CultureInfo.InvariantCulture, $"{what}bleeds into the microphone and could not be taken out: judged is what you did after it had left, {alone:0.0} of {drone.AskedSeconds:0.0} s. Use headphones.")
            : drone.IsTrusted
            ? string.Create(CultureInfo.InvariantCulture, $"{what}bleeds into the microphone; taken out before measuring, what is left of it lies {-(drone.LeftDb ?? 0):0} dB under it. Headphones are surer.")
            : $"{what}bleeds into the microphone and could not be taken out: what stands here may be {(hasDrone ? "the drone" : "that")}, not you. Use headphones.";
    }

    private static string ShortDroneWords(DroneInTake drone, bool hasDrone)
    {
        string what = hasDrone ? "DRONE  " : "BLEED  the cue, or a tone like it, ";
        return drone.AloneSeconds is { } alone
            ? string.Create(CultureInfo.InvariantCulture, $"{what}bleeds in and stays: judged are the {alone:0.0} s after it had left. Use headphones.")
            : drone.IsTrusted
            ? $"{what}bleeds {(hasDrone ? "into the microphone" : "in")}; taken out. Headphones are surer."
            : $"{what}bleeds in and stays: this may be {(hasDrone ? "the drone" : "it")}, not you. Use headphones.";
    }

    /// <summary>A take's breath against what was asked of it.</summary>
    /// <param name="judged">The take.</param>
    /// <param name="columns">Columns for the whole take.</param>
    /// <param name="seconds">Seconds that they are to hold.</param>
    internal static BreathLine Line(JudgedTake judged, int columns, double seconds)
    {
        double perSecond = Math.Min(MostColumnsPerSecond, columns / Math.Max(1, seconds));
        var line = new BreathLine(perSecond);
        foreach (AnalysisFrame frame in judged.Frames)
        {
            double since = frame.CentreSeconds - judged.Recorded.StartSeconds;
            line.Add(frame, judged.Exercise.AskedHz(VoiceRole.Played, since), judged.Exercise.AskedHz(VoiceRole.Sung, since), judged.Recorded.StartSeconds);
        }

        return line;
    }

    private static void DrawTone(
        Canvas canvas, int y, MusicStand stand, VoiceRole role, Pitch note, JudgedTone? report, IReadOnlyList<SayingCheck> checks, BreathLine line, int columns, double fogSeconds)
    {
        bool played = role == VoiceRole.Played;
        Ink ink = played ? Ink.Played : Ink.Sung;
        SayingCheck? check = checks.FirstOrDefault(item => item.Said.StartsWith(played ? "my played" : "my sung", StringComparison.Ordinal));
        string said = check is null ? "" : $"you said {check.Said[(check.Said.LastIndexOf(' ') + 1)..]}: {(check.IsRight == true ? $"yes, {AfterColon(check.Measured)}" : check.Measured)}";
        canvas.Write(0, y, $"{(played ? "PLAYED" : "SUNG")} {stand.Name(note)}", ink);
        canvas.Write(14, y, said);
        if (report?.OffsetCents is { } offset)
        {
            BigGlyphs.Write(canvas, 2, y + 1, offset.ToString("+0;-0;0", CultureInfo.InvariantCulture), ink);
        }
        else if (!played && fogSeconds > 0)
        {
            BigGlyphs.Draw(canvas, 2, y + 1, BigGlyphs.Disc, Glyphs.Fog, ink);
        }
        else
        {
            canvas.Write(2, y + 3, report is null ? "not asked for" : "not told");
        }

        BreathPanel.DrawLane(canvas, LaneLeft, y + 1, LaneRows, columns, line, role);
        BreathPanel.DrawLimits(canvas, y + 1, LaneRows);
        canvas.WriteRight(canvas.Width - 1, y + 3, "asked", Ink.Quiet);
        canvas.Write(2, y + 6, Unrest(report, !played && fogSeconds > 0));
    }

    private static string AfterColon(string measured) => measured[(measured.IndexOf(": ", StringComparison.Ordinal) is var at and >= 0 ? at + 2 : 0)..];

    private static string Unrest(JudgedTone? report, bool isFog)
    {
        if (report is null or { OffsetCents: null })
        {
            return isFog ? $"{Glyphs.Fog} fog: not told" : "";
        }

        double wander = report.SpreadCents ?? 0;
        double drift = report.DriftCents ?? 0;
        string unrest = Math.Abs(drift) > wander
            ? string.Create(CultureInfo.InvariantCulture, $"cents; drift {drift:+0;-0;0}")
            : string.Create(CultureInfo.InvariantCulture, $"cents; wander {wander:0}");
        if (report.VibratoPerSecond is not { } rate)
        {
            return unrest;
        }

        // Under the sung tone the axis of seconds begins right beside it: the widest words that leave it alone.
        string[] words =
        [
            string.Create(CultureInfo.InvariantCulture, $"{unrest}, vibrato {rate:0.0} /s"),
            string.Create(CultureInfo.InvariantCulture, $"{unrest}, vib. {rate:0.0} /s"),
            string.Create(CultureInfo.InvariantCulture, $"{unrest.Replace("cents;", "c;", StringComparison.Ordinal)}, vib. {rate:0.0} /s"),
        ];
        return words.FirstOrDefault(text => text.Length <= UnrestWidth) ?? unrest;
    }

    /// <summary>Seconds under a lane.</summary>
    /// <param name="canvas">Where.</param>
    /// <param name="left">First column of the lane.</param>
    /// <param name="y">Row.</param>
    /// <param name="line">The breath in it.</param>
    /// <param name="columns">Its columns.</param>
    /// <param name="takeSeconds">Length of the take in seconds.</param>
    internal static void DrawAxis(Canvas canvas, int left, int y, BreathLine line, int columns, double takeSeconds)
    {
        int step = line.ColumnsPerSecond >= 5 ? 2 : 4;
        for (int second = 0; second <= takeSeconds; second += step)
        {
            int x = left + (int)(second * line.ColumnsPerSecond);
            if (x <= left + columns)
            {
                canvas.Write(x, y, second + step > takeSeconds ? $"{second} s" : second.ToString(CultureInfo.InvariantCulture), Ink.Quiet);
            }
        }
    }

    /// <summary>Aim, what is next, a body note and a drone that bleeds always find room; the rest as far as it goes.</summary>
    private static void DrawWords(Canvas canvas, int top, JudgedTake judged, IReadOnlyList<SayingCheck> checks, string body)
    {
        TakeResult result = judged.Result;
        int width = canvas.Width - 1;
        string next = $"NEXT  {result.Next}";
        string aim = AimWords(result, width, judged.HasDrone);
        int left = canvas.Height - 2 - top - Canvas.RowsOf(width, aim) - Canvas.RowsOf(width, next);
        int y = top;
        if (body.Length > 0)
        {
            left -= Canvas.RowsOf(width, body);
            y = canvas.Paragraph(0, y, width, body);
        }

        if (judged.Drone is { Bleeds: true } drone)
        {
            string full = DroneWords(drone, judged.HasDrone);
            string words = Canvas.RowsOf(width, full) <= left ? full : ShortDroneWords(drone, judged.HasDrone);
            left -= Canvas.RowsOf(width, words);
            y = canvas.Paragraph(0, y, width, words);
        }

        IEnumerable<string> said = checks
            .Where(check => !check.Said.StartsWith("my ", StringComparison.Ordinal))
            .Select(check => $"YOU SAID  {check.Said}: {(check.IsRight == true ? $"yes, {AfterColon(check.Measured)}" : check.Measured)}");
        if (judged.ExpectedCheck is { } expected)
        {
            said = said.Prepend($"YOU {expected.Said.ToUpperInvariant()[..8]}  {expected.Said[9..]}: {(expected.IsRight == true ? "yes, " : "")}{expected.Measured}");
        }

        foreach (string words in said.Concat(result.DroneComparisons.Select(ComparisonWords)).Concat(BeatsInFull(judged)))
        {
            int rows = Canvas.RowsOf(width, words);
            if (rows <= left)
            {
                left -= rows;
                y = canvas.Paragraph(0, y, width, words);
            }
        }

        y = canvas.Paragraph(0, y, width, aim);
        y = canvas.Paragraph(0, y, width, next);
        foreach (Finding finding in Cli.ExerciseText.Once(result.Findings).OrderBy(finding => finding.Verdict == Verdict.Met))
        {
            int rows = Canvas.RowsOf(width, finding.Text);
            if (rows <= left)
            {
                left -= rows;
                y = canvas.Paragraph(0, y, width, finding.Text, Ink.Quiet);
            }
        }
    }

    /// <summary>One tone with the drone and without it.</summary>
    /// <param name="tone">The comparison.</param>
    internal static string ComparisonWords(DroneComparison tone) => string.Create(
        CultureInfo.InvariantCulture,
        $"DRONE  {(tone.Role == VoiceRole.Played ? "P" : "S")} {tone.WithCents:+0;-0;0} c while it sounded, {tone.WithoutCents:+0;-0;0} c in silence{(tone.Leans ? ": you lean on it" : "")}");

    private static IEnumerable<string> Missed(TakeResult result, bool hasDrone) => result.Findings
        .Where(finding => finding.Verdict == Verdict.Missed)
        .Select(finding => $"{(finding.Role switch { VoiceRole.Played => "played tone ", VoiceRole.Sung => "sung tone ", _ => "" })}{FaultWords(finding.Fault, finding.Role is null, hasDrone)}")
        .Distinct();

    // In one row as many as it holds, at least one; the findings below tell all.
    private static string MissedWords(TakeResult result, string before, int width, bool hasDrone)
    {
        string[] missed = [.. Missed(result, hasDrone)];
        int count = missed.Length;
        while (count > 1 && Canvas.RowsOf(width, before + string.Join(", ", missed[..count])) > 1)
        {
            count--;
        }

        return before + string.Join(", ", missed[..count]);
    }

    /// <summary>In what a take was as asked: an exercise about drift says nothing of the place.</summary>
    private static string Judged(TakeResult result)
    {
        string[] words = [.. result.Findings
            .Where(finding => finding.Verdict == Verdict.Met)
            .Select(finding => finding.Criterion switch
            {
                "offset" => "pitch",
                "spread" => "wander",
                "drift" => "drift",
                "steady" => "steadiness",
                "unbroken" => "one piece",
                "arrival" => "time",
                "return" => "return",
                "landing" => "landing",
                "beatRate" => "beat rate",
                "together" => "together",
                "interval" => "interval",
                "balance" => "balance",
                "notes" => "notes",
                _ => "",
            })
            .Where(word => word.Length > 0).Distinct().Take(3)];
        return words.Length == 0 ? "" : $": {string.Join(", ", words)}";
    }

    private static string FaultWords(Fault fault, bool isOfBoth, bool hasDrone) => fault switch
    {
        Fault.Offset => "off pitch",
        Fault.WrongOctave => "in another octave",
        Fault.OtherNote => "another note",
        Fault.Spread => "wandered",
        Fault.Drift => "drifted",
        Fault.Flinch => "flinched",
        Fault.Broken => "broke off",
        Fault.ShortWay => "not the whole way",
        Fault.NotRested => "did not rest",
        Fault.NotLanded => "did not land",
        Fault.BeatRate => "not the beats asked",
        Fault.Late => "came late",
        Fault.NotTogether => "not together",
        Fault.NotReturned => "did not return",
        Fault.Interval => "interval not kept",
        Fault.Balance => "out of balance",
        Fault.Bleed => hasDrone ? "drone bleeds in" : "the cue bleeds in",
        Fault.NoTone => isOfBoth ? "no tone found" : "not found",
        Fault.TooShort => "too short",
        _ => fault.ToString(),
    };

    private static string AimWords(TakeResult result, int width, bool hasDrone)
    {
        string best = result.BestSecond is { } window
            ? string.Create(CultureInfo.InvariantCulture, $"BEST SECOND  {window.FromSeconds:0.0} to {window.ToSeconds:0.0} s   ")
            : "";
        return result.AsAsked switch
        {
            null => $"{best}AS ASKED?  not told",
            true when result.IsOctaveUntold => $"{best}AS ASKED?  yes, but the octave cannot be told",
            true => $"{best}AS ASKED?  yes{Judged(result)}",
            _ => MissedWords(result, $"{best}AS ASKED?  not yet: ", width, hasDrone),
        };
    }
}
