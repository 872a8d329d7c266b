using System.Globalization;
using BrassVox.Practice.Exercises;
using BrassVox.Practice.Judging;
using BrassVox.Practice.Sessions;
using BrassVox.Theory;

namespace BrassVox.App.Cli;

/// <summary>Exercises and results as text for a player.</summary>
internal static class ExerciseText
{
    private const int Width = 80;

    public static string List(ExerciseLibrary library)
    {
        StringWriter text = NewText();
        text.WriteLine("   #  id                                  kind    name");
        foreach (Exercise exercise in library.Exercises)
        {
            text.WriteLine(Invariant($"  {exercise.Number,2}  {exercise.Id,-34}  {ExerciseReport.Word(exercise),-6}  {exercise.Name}"));
        }

        return text.ToString();
    }

    public static string Show(ResolvedExercise resolved)
    {
        Exercise exercise = resolved.Exercise;
        ResolvedPair pair = resolved.Pair;
        StringWriter text = NewText();
        text.WriteLine($"{exercise.Number}  {exercise.Name}   ({exercise.Id})");
        text.WriteLine();
        Wrap(text, "", exercise.About);
        Wrap(text, "Listen for: ", exercise.ListenFor);
        text.WriteLine();
        text.WriteLine(Invariant($"Pair        {pair.Played} played ({pair.PlayedHz:F2} Hz), {pair.Sung} sung ({pair.SungHz:F2} Hz)   {pair.Tuning.Name}, A4 {pair.A4Hz} Hz"));
        foreach (string note in resolved.Notes)
        {
            Wrap(text, "            ", note);
        }

        foreach (ExerciseStep step in resolved.Steps)
        {
            Step(text, step, resolved.Profile.Aim);
        }

        if (!exercise.IsListening && resolved.Steps.Count > 1)
        {
            Wrap(text, "Timing      ", string.Create(CultureInfo.InvariantCulture, $"The steps begin at {string.Join(", ", resolved.Steps.Select((_, i) => resolved.StepStartSeconds(i).ToString("0.#", CultureInfo.InvariantCulture)))} s; {resolved.TakeSeconds:0.#} s in all."));
        }

        if (exercise.PlayAlong?.Predict is { } figure)
        {
            Wrap(text, "First       ", $"{Predictions.Question(figure)} ...; say the number before the take (--expect).");
        }

        if (exercise.Listening is { } listening)
        {
            Wrap(text, "Asked       ", listening.Question);
            if (listening.Answer is ChoiceAnswer choice)
            {
                text.WriteLine($"Answers     {string.Join(", ", choice.Options)}");
            }
        }

        text.WriteLine();
        text.WriteLine(Invariant($"Dose        {exercise.Dose.Minutes} min; {exercise.Dose.Takes} {(exercise.IsListening ? "trials" : "takes")}, {exercise.Dose.Pass} of them as asked, then the next exercise"));
        if (exercise.Prerequisites.Count > 0)
        {
            text.WriteLine($"Before it   {string.Join(", ", exercise.Prerequisites)}");
        }

        foreach (Caution caution in exercise.Cautions)
        {
            Wrap(text, "Care        ", Cautions.TextOf(caution));
        }

        Wrap(text, "Origin      ", exercise.Source);
        return text.ToString();
    }

    public static string Result(JudgedTake take, IReadOnlyList<string> remarks)
    {
        TakeResult result = take.Result;
        ResolvedPair pair = take.Exercise.Pair;
        StringWriter text = NewText();
        text.WriteLine(Invariant($"{Numbered(take.Exercise.Exercise)}{take.Exercise.Exercise.Name}   {pair.Played} played, {pair.Sung} sung   {pair.Tuning.Name}, A4 {pair.A4Hz} Hz"));
        foreach (string note in take.Exercise.Notes.Concat(remarks))
        {
            Wrap(text, "    ", note);
        }

        text.WriteLine();
        if (take.Drone is { IsTrusted: false })
        {
            // No figure of such a take can be the player's: none is printed, also of takes kept before figures were left out.
            Wrap(text, "  bleeds  ", $"{take.Drone.Words(take.HasDrone)}.");
            text.WriteLine();
            text.WriteLine($"AIM {result.Aim}   {Summary(result)}");
            Wrap(text, "NEXT   ", result.Next);
            return text.ToString();
        }

        if (take.Drone is { Bleeds: true } drone)
        {
            Wrap(text, "  bleeds  ", $"{drone.Words(take.HasDrone)}.");
            text.WriteLine();
        }

        text.WriteLine("            offset   wander    drift   heard / asked");
        Tone(text, "played", result.Played);
        Tone(text, "sung", result.Sung);
        string[] free = [.. new[] { result.Played, result.Sung }.OfType<JudgedTone>().Where(tone => !Departures.IsPlaceAsked(take.Exercise, tone.Role)).Select(tone => tone.Role == VoiceRole.Played ? "played" : "sung")];
        if (free.Length > 0)
        {
            bool isInterval = take.Exercise.Steps.Any(step => step.Task is PlayTask task && task.Criteria.Any(criterion => criterion is IntervalCriterion));
            Wrap(text, "  place   ", $"not asked of the {string.Join(" and the ", free)} tone{(isInterval ? ", only the interval between the two" : $": {(free.Length == 1 ? "its" : "their")} offset is no fault here")}");
        }

        if (result.Pair.MedianBeatsPerSecond is { } beats)
        {
            text.WriteLine(Invariant($"  beats   {beats,6:F1} /s    {(beats < 0.05 ? "half of the time the pair stood still" : "half of the time faster than that")}"));
        }

        if (result.Pair.FogSeconds > 0.05)
        {
            text.WriteLine(Invariant($"  fog     {result.Pair.FogSeconds,6:F1} s    not separable: beats are judged there, not cents"));
        }

        text.WriteLine();
        bool severalSteps = take.Exercise.Steps.Count > 1;
        foreach (Finding finding in Once(result.Findings))
        {
            string mark = finding.Verdict switch { Verdict.Met => "yes", Verdict.Missed => "no", _ => "?" };
            Wrap(text, $"  {mark,-4}", severalSteps ? $"{finding.StepId}: {finding.Text}" : finding.Text);
        }

        Stretches(text, take.Stretches);
        Notes(text, result.Notes);
        foreach (DroneComparison tone in result.DroneComparisons)
        {
            text.WriteLine(Invariant($"  drone   {(tone.Role == VoiceRole.Played ? "played" : "sung")} {Signed(tone.WithCents)} while it sounded, {Signed(tone.WithoutCents)} in silence{(tone.Leans ? ": you lean on it" : "")}"));
        }

        if (take.ExpectedCheck is { } check)
        {
            text.WriteLine($"  {(check.IsRight switch { true => "yes", false => "no", _ => "?" }),-4}you {check.Said}: {check.Measured}");
        }

        text.WriteLine();
        text.WriteLine($"AIM {result.Aim}   {Summary(result)}");
        if (result.BestSecond is { } best)
        {
            text.WriteLine(Invariant($"BEST SECOND   {best.FromSeconds:F1} to {best.ToSeconds:F1} s"));
        }

        Wrap(text, "NEXT   ", result.Next);
        return text.ToString();
    }

    /// <summary>Where a tone stood in another octave or on another note, every judgement of its place says so: once is enough.</summary>
    /// <param name="findings">What was found.</param>
    internal static IEnumerable<Finding> Once(IEnumerable<Finding> findings) =>
        findings.DistinctBy(finding => finding.Fault is Fault.WrongOctave or Fault.OtherNote ? (object)(finding.StepId, finding.Role) : finding);

    public static string Result(ListeningResult result)
    {
        StringWriter text = NewText();
        text.WriteLine();
        text.WriteLine(Invariant($"WHAT YOU CAN TELL   {result.ExerciseId}, {result.Trials.Count} {(result.Trials.Count == 1 ? "trial" : "trials")}"));
        Wrap(text, "  ", result.Says);
        foreach (LevelShare level in result.ByDifficulty)
        {
            text.WriteLine(Invariant($"  at {level.Difficulty,6:0.##}   {level.Right} of {level.Of}"));
        }

        foreach (Confusions line in Confusions.Of(result.Trials))
        {
            Wrap(text, $"  {line.Truth}: ", line.Words);
        }

        return text.ToString();
    }

    private static void Notes(StringWriter text, IReadOnlyList<NoteResult> notes)
    {
        if (notes.Count > 0)
        {
            text.WriteLine();
            text.WriteLine("      at         tone  note       pitch     time");
        }

        foreach (NoteResult note in notes)
        {
            string mark = note.IsAsAsked switch { true => "yes", false => "no", _ => "?" };
            string pitch = note switch
            {
                { Cents: { } cents } => Signed(cents),
                { IsFog: true, BeatsPerSecond: { } beats } => Invariant($"{beats:0.0} /s"),
                { IsFog: true } => "fog",
                _ => "not found",
            };
            string time = note.LateSeconds is { } late ? Invariant($"{late:+0.00;-0.00;0.00} s") : "-";
            text.WriteLine(Invariant($"  {mark,-4}{note.Label,-11}{(note.Role == VoiceRole.Played ? "P" : "S"),-6}{note.Note,-5}{pitch,11}{time,9}"));
        }
    }

    private static void Stretches(StringWriter text, IReadOnlyList<StretchResultant> stretches)
    {
        double? strongest = stretches.Max(stretch => stretch.LevelDbfs);
        for (int i = 0; i < stretches.Count; i++)
        {
            StretchResultant stretch = stretches[i];
            string made = stretch.Name is { } name ? Invariant($"{name} {stretch.LevelDbfs:F0} dBFS") : "no resultant stands out";
            string most = stretch.LevelDbfs is { } level && level == strongest ? "   strongest" : "";
            string balance = stretch.PlayedOverSungDb is { } over ? Invariant($"P {over:+0;-0;0} dB over S") : "balance not told";
            text.WriteLine(Invariant($"  {i + 1}     {balance}: {made}{most}"));
        }
    }

    // A passage has no place in the curriculum.
    private static string Numbered(Exercise exercise) => exercise.Number > 0 ? Invariant($"{exercise.Number}  ") : "";

    private static string Summary(TakeResult result) => (result.AsAsked, result.Reached) switch
    {
        (null, _) => result.Findings.Any(finding => finding.Verdict == Verdict.Met) ? "could not be judged" : "nothing could be told",
        (true, { } grade) when result.IsOctaveUntold => $"as asked, but the octave cannot be told; grade {grade} reached",
        (true, { } grade) => $"as asked, grade {grade} reached",
        (true, null) => "as asked, but not in every step",
        (false, { } grade) => $"not as asked; grade {grade} reached",
        _ => "not as asked",
    };

    private static void Step(StringWriter text, ExerciseStep step, Practice.Profiles.Grade aim)
    {
        var task = (PlayTask)step.Task;
        text.WriteLine();
        Wrap(text, "Do          ", step.Prompt);
        Path(text, "  played    ", task.Played);
        Path(text, "  sung      ", task.Sung);
        foreach (SoundingPart sounding in step.Sounding)
        {
            string windows = string.Join(", ", sounding.Windows.Select(window => Invariant($"{window.FromSeconds:0.#} to {window.ToSeconds:0.#} s")));
            text.WriteLine($"  drone     {(sounding.Role == VoiceRole.Played ? "P" : "S")} {windows}");
        }

        foreach (string line in CriterionText.Lines(task.Criteria, aim))
        {
            Wrap(text, "  asked     ", line);
        }
    }

    private static void Path(StringWriter text, string head, AskedPart? part)
    {
        if (part is not null)
        {
            Wrap(text, head, string.Join(", ", part.Segments.Select(Segment)));
        }
    }

    private static string Segment(AskedSegment segment)
    {
        double seconds = segment.ToSeconds - segment.FromSeconds;
        string cents = Math.Abs(segment.Cents) < 0.5 ? "" : Invariant($" {segment.Cents:+0;-0} c");
        return segment.Move switch
        {
            Move.Rest => Invariant($"rest {seconds:0.##} s"),
            Move.Hold => Invariant($"{segment.Note}{cents} {seconds:0.##} s"),
            _ => Invariant($"glide to {segment.Note}{cents} in {seconds:0.##} s"),
        };
    }

    private static void Tone(StringWriter text, string name, JudgedTone? tone)
    {
        if (tone is null)
        {
            return;
        }

        string vibrato = tone.VibratoCents is { } width ? Invariant($"   vibrato {tone.VibratoPerSecond:F1} /s, {width:F0} c each way") : "";
        text.WriteLine(Invariant($"  {name,-7} {Signed(tone.OffsetCents),9}{Plain(tone.SpreadCents),9}{Signed(tone.DriftCents),9}   {tone.HeardSeconds:F1} / {tone.AskedSeconds:F1} s{vibrato}"));
    }

    private static string Signed(double? cents) => cents is { } c ? Invariant($"{c:+0.0;-0.0;0.0} c") : "-";

    private static string Plain(double? cents) => cents is { } c ? Invariant($"{c:0.0} c") : "-";

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static StringWriter NewText() => new(CultureInfo.InvariantCulture) { NewLine = "\n" };

    private static void Wrap(StringWriter text, string head, string body)
    {
        string line = head;
        bool isEmpty = true;
        foreach (string word in body.Split(' '))
        {
            if (!isEmpty && line.Length + 1 + word.Length > Width)
            {
                text.WriteLine(line);
                line = new string(' ', head.Length);
                isEmpty = true;
            }

            line += isEmpty ? word : " " + word;
            isEmpty = false;
        }

        text.WriteLine(line);
    }
}
